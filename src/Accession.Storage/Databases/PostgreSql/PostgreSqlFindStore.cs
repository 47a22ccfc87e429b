using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>A GIN index over the words of the table of specimens.</summary>
internal sealed class PostgreSqlFindStore : IFindStore
{
    public FindQuestion Begun(IReadOnlyList<string> words) => new(Whole(words).Text + ":*");

    public FindQuestion Whole(IReadOnlyList<string> words) => new(string.Join(" & ", words));

    public IQueryable<long> Bearing(AccessionDb db, FindQuestion question) => db.Database.SqlQuery<long>(
        $"""
        SELECT id AS "Value" FROM specimen
        WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', {question.Text})
        """);

    public async Task<int> CountAsync(
        AccessionDb db, FindQuestion question, int most, CancellationToken cancellation) =>
        (int)(await FoundKeys.ReadAsync(
            db,
            """
            SELECT count(*) FROM (
                SELECT 1 FROM specimen
                WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', @words) LIMIT @most) found
            """,
            [("@words", question.Text), ("@most", most)],
            cancellation)).Single();

    public Task<List<long>> NewestAsync(
        AccessionDb db, FindQuestion question, long? before, int most, CancellationToken cancellation) =>
        FoundKeys.ReadAsync(
            db,
            """
            SELECT id FROM specimen
            WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', @words) AND id < @before
            ORDER BY id DESC LIMIT @most
            """,
            [("@words", question.Text), ("@before", before ?? long.MaxValue), ("@most", most)],
            cancellation);
}
