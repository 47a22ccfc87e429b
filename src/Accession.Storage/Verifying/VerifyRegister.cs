using System.Runtime.CompilerServices;
using Accession.Core.Accessions;
using Accession.Core.Numbers;
using Accession.Storage.Finding;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Accession.Storage.Verifying;

/// <summary>
/// Recomputes what stands beside the entries from the entries themselves. It reads the register as it was at one
/// moment, so people may go on working, and holds one disagreement at a time.
/// </summary>
public sealed class VerifyRegister(AccessionDb db, ExactLocalities exactPlaces, CorrectedRecords corrected)
{
    private const string ShownPlaces = "What is shown of protected places";
    private const string WrittenNumbers = "How catalog numbers are written";
    private const string CorrectedFacts = "What was corrected stands";
    private const string WordsOfNames = "The words by which a slip in a name is mended";
    private const string FindWords = "The words by which each sheet is found";

    /// <summary>The disagreements, check by check.</summary>
    /// <param name="begins">Told the name of each check before it runs.</param>
    /// <param name="cancellation">Gives up.</param>
    public async IAsyncEnumerable<Disagreement> RunAsync(
        Action<string> begins, [EnumeratorCancellation] CancellationToken cancellation)
    {
        await using var moment = await db.Kind.ReadOneMomentAsync(db, cancellation);
        foreach (var (name, sql) in RegisterChecks.All)
        {
            begins(name);
            await foreach (var found in SelectAsync(name, sql, moment, cancellation))
            {
                yield return found;
            }
        }

        begins(ShownPlaces);
        await foreach (var gathering in exactPlaces.WronglyShownAsync(cancellation))
        {
            yield return new(
                ShownPlaces, $"gathering {gathering}", "another public place", "what follows from the exact place");
        }

        begins(CorrectedFacts);
        await foreach (var (gathering, what) in corrected.WronglyCorrectedAsync(cancellation))
        {
            yield return new(
                CorrectedFacts, $"gathering {gathering}, {what}", "something else", "what its corrections say");
        }

        begins(FindWords);
        await foreach (var found in FindTexts.WrongAsync(db, FindWords, cancellation))
        {
            yield return found;
        }

        begins(WordsOfNames);
        await foreach (var found in NameWords.MissingAsync(db, WordsOfNames, cancellation))
        {
            yield return found;
        }

        begins(WrittenNumbers);
        await foreach (var found in WrittenAsync(cancellation))
        {
            yield return found;
        }
    }

    private async IAsyncEnumerable<Disagreement> SelectAsync(
        string name, string sql, IDbContextTransaction moment, [EnumeratorCancellation] CancellationToken cancellation)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        command.CommandTimeout = 0;
        command.Transaction = moment.GetDbTransaction();
        await using var rows = await command.ExecuteReaderAsync(cancellation);
        while (await rows.ReadAsync(cancellation))
        {
            yield return new(name, rows.GetString(0), rows.GetString(1), rows.GetString(2));
        }
    }

    private async IAsyncEnumerable<Disagreement> WrittenAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var patterns = (await db.Series.AsNoTracking().ToListAsync(cancellation))
            .ToDictionary(series => series.Id, series => series.Use == SeriesUse.FromBefore ? null : series.Pattern);
        var all = db.Specimens.OrderBy(s => s.Id).Select(s => new
        {
            s.SeriesId,
            s.Number,
            s.CatalogNumber,
            IsTakenOver = db.Accessions.Any(
                lot => lot.Id == s.Gathering.AccessionId && lot.Terms == AccessionTerms.TakenOver),
        });
        await foreach (var sheet in all.AsAsyncEnumerable().WithCancellation(cancellation))
        {
            // A number from before is kept to the letter, and need not look as the series writes it.
            var isRight = patterns[sheet.SeriesId] is not { } pattern
                || pattern.Write(sheet.Number, 0) == sheet.CatalogNumber
                || (sheet.IsTakenOver && pattern.NumberBorneIn(sheet.CatalogNumber) == sheet.Number);
            if (!isRight)
            {
                var written = patterns[sheet.SeriesId]!.Write(sheet.Number, 0);
                yield return new(WrittenNumbers, $"specimen {sheet.CatalogNumber}", sheet.CatalogNumber, written);
            }
        }
    }
}
