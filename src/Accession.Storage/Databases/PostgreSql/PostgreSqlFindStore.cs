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

    public Task<int> CountAsync(
        AccessionDb db, IReadOnlyList<string> words, int most, CancellationToken cancellation) =>
        db.Database.SqlQuery<int>(
            $"""
            SELECT count(*)::int AS "Value" FROM (
                SELECT 1 FROM specimen
                WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', {Question(words)}) LIMIT {most}) found
            """).SingleAsync(cancellation);

    public Task<List<long>> NewestAsync(
        AccessionDb db, IReadOnlyList<string> words, long? before, int most, CancellationToken cancellation) =>
        db.Database.SqlQuery<long>(
            $"""
            SELECT id AS "Value" FROM specimen
            WHERE to_tsvector('simple', find_text) @@ to_tsquery('simple', {Question(words)})
                AND id < {before ?? long.MaxValue}
            ORDER BY id DESC LIMIT {most}
            """).ToListAsync(cancellation);

    private static string Question(IReadOnlyList<string> words) => string.Join(" & ", words) + ":*";
}
