using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>FTS5 over the texts of the table of specimens, kept by triggers in the same transaction.</summary>
internal sealed class SqliteFindStore : IFindStore
{
    public IQueryable<long> Bearing(AccessionDb db, IReadOnlyList<string> words) => db.Database.SqlQuery<long>(
        $"""SELECT rowid AS "Value" FROM specimen_find WHERE specimen_find MATCH {Question(words)}""");

    public Task<int> CountAsync(
        AccessionDb db, IReadOnlyList<string> words, int most, CancellationToken cancellation) =>
        db.Database.SqlQuery<int>(
            $"""
            SELECT count(*) AS "Value" FROM (
                SELECT 1 FROM specimen_find WHERE specimen_find MATCH {Question(words)} LIMIT {most})
            """).SingleAsync(cancellation);

    // The index gives its rows by falling key and stops when there are enough.
    public Task<List<long>> NewestAsync(
        AccessionDb db, IReadOnlyList<string> words, long? before, int most, CancellationToken cancellation) =>
        db.Database.SqlQuery<long>(
            $"""
            SELECT rowid AS "Value" FROM specimen_find
            WHERE specimen_find MATCH {Question(words)} AND rowid < {before ?? long.MaxValue}
            ORDER BY rowid DESC LIMIT {most}
            """).ToListAsync(cancellation);

    private static string Question(IReadOnlyList<string> words) =>
        string.Join(' ', words.Select(word => $"\"{word}\"")) + "*";
}
