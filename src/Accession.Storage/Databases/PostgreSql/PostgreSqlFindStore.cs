using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>A GIN index over the words of the table of specimens.</summary>
internal sealed class PostgreSqlFindStore : IFindStore
{
    public IQueryable<long> Bearing(AccessionDb db, IReadOnlyList<string> words) => db.Database.SqlQuery<long>(
        $"""
        SELECT id AS "Value" FROM specimen
        WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', {Question(words)})
        """);

    public async Task<int> CountAsync(
        AccessionDb db, IReadOnlyList<string> words, int most, CancellationToken cancellation) =>
        (int)(await FoundKeys.ReadAsync(
            db,
            """
            SELECT count(*) FROM (
                SELECT 1 FROM specimen
                WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', @words) LIMIT @most) found
            """,
            [("@words", Question(words)), ("@most", most)],
            cancellation)).Single();

    public Task<List<long>> NewestAsync(
        AccessionDb db, IReadOnlyList<string> words, long? before, int most, CancellationToken cancellation) =>
        FoundKeys.ReadAsync(
            db,
            """
            SELECT id FROM specimen
            WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', @words) AND id < @before
            ORDER BY id DESC LIMIT @most
            """,
            [("@words", Question(words)), ("@before", before ?? long.MaxValue), ("@most", most)],
            cancellation);

    private static string Question(IReadOnlyList<string> words) => string.Join(" & ", words) + ":*";
}
