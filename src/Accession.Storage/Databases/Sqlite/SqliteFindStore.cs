using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>FTS5 over the texts of the table of specimens, kept by triggers in the same transaction.</summary>
internal sealed class SqliteFindStore : IFindStore
{
    public FindQuestion Begun(IReadOnlyList<string> words) => new(Whole(words).Text + "*");

    public FindQuestion Whole(IReadOnlyList<string> words) =>
        new(string.Join(' ', words.Select(word => $"\"{word}\"")));

    public IQueryable<long> Bearing(AccessionDb db, FindQuestion question) => db.Database.SqlQuery<long>(
        $"""SELECT rowid AS "Value" FROM specimen_find WHERE specimen_find MATCH {question.Text}""");

    public async Task<int> CountAsync(
        AccessionDb db, FindQuestion question, int most, CancellationToken cancellation) =>
        (int)(await FoundKeys.ReadAsync(
            db,
            "SELECT count(*) FROM (SELECT 1 FROM specimen_find WHERE specimen_find MATCH @words LIMIT @most)",
            [("@words", question.Text), ("@most", most)],
            cancellation)).Single();

    // The index gives its rows by falling key and stops when there are enough.
    public Task<List<long>> NewestAsync(
        AccessionDb db, FindQuestion question, long? before, int most, CancellationToken cancellation) =>
        FoundKeys.ReadAsync(
            db,
            """
            SELECT rowid FROM specimen_find WHERE specimen_find MATCH @words AND rowid < @before
            ORDER BY rowid DESC LIMIT @most
            """,
            [("@words", question.Text), ("@before", before ?? long.MaxValue), ("@most", most)],
            cancellation);
}
