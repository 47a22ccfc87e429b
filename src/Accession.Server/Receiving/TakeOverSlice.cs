using Accession.Core.Batches;
using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Numbers;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// Takes a slice of settled rows over, in one transaction: for each a gathering and its specimen with the number that
/// the sheet bears, its part, first custody and listed name, by the verbs that number a sheet by hand. A row without a
/// number becomes a gathering whose sheet waits to be numbered.
/// </summary>
public sealed class TakeOverSlice(
    AccessionDb db, GatheringsOfRows gatherings, NumberIssuer numbers, BorneNumbers borne,
    IOptions<InstitutionOptions> house)
{
    public async Task RunAsync(GatheringsOfRows.Lot lot, IReadOnlyList<long> ids, CancellationToken cancellation)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        // Held, and read only now: another process that was taken for dead may have come before.
        var rows = await db.Rows.AsNoTracking().Held().Where(SettledRows.ToTakeIn).Where(row => ids.Contains(row.Id))
            .OrderBy(row => row.Line).ThenBy(row => row.Id).ToListAsync(cancellation);
        var fromBefore = await numbers.HoldFromBeforeAsync(cancellation);
        var found = await borne.OfAsync(
            [
                .. rows.Where(row => row.CatalogNumber.Length > 0)
                    .Select(row => new BorneNumbers.Sheet(row.Id, row.CatalogNumber)),
            ],
            fromBefore, cancellation);
        var identifiers = await IdentifiersAsync(lot, rows, cancellation);
        var act = await db.Acts.SingleAsync(act => act.Id == lot.ActId, cancellation);
        await gatherings.SaveAsync(
            lot, [.. rows.Where(row => !found.Void.ContainsKey(row.Id))],
            became => AddSheets(
                became, found.Numbers, identifiers,
                rows.ToDictionary(row => row.Id, row => HistoryOf(lot.Batch, row)), act),
            cancellation);
        foreach (var row in rows.Where(row => found.Void.ContainsKey(row.Id)))
        {
            await OpenAsync(row, found.Void[row.Id], cancellation);
        }

        await db.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
        db.ChangeTracker.Clear();
    }

    private void AddSheets(
        Dictionary<long, Gathering> became, IReadOnlyDictionary<long, Specimen.Borne> numbers,
        Dictionary<long, string> identifiers, Dictionary<long, IReadOnlyList<ListedIdentification>> histories, Act act)
    {
        foreach (var (row, number) in numbers)
        {
            var specimen = Specimen.TakeOver(
                number, became[row], house.Value.Name, identifiers[row], act, histories[row]);
            db.Add(specimen.Value);
        }
    }

    private static IReadOnlyList<ListedIdentification> HistoryOf(Batch batch, BatchRow row) =>
        batch.Lists.Single(list => list.Id == row.FirstListId).Headings is var headings
            && headings.Contains(IdentificationHistory.Heading, StringComparison.Ordinal)
            ? HistoryOfRow.Of(RowCells.FromJson(row.Cells), headings)
            : [];

    // Of two sheets with one identifier the first keeps it: the other's record was never told apart from it by that.
    private async Task<Dictionary<long, string>> IdentifiersAsync(
        GatheringsOfRows.Lot lot, List<BatchRow> rows, CancellationToken cancellation)
    {
        var written = rows.ToDictionary(row => row.Id, row => LastingIdentifier.Of(
            lot.Readers[row.FirstListId].IdentitiesOf(RowCells.FromJson(row.Cells)).OccurrenceID));
        var wanted = written.Values.Where(identifier => identifier.Length > 0).Distinct().ToList();
        if (wanted.Count == 0)
        {
            return written;
        }

        var taken = (await db.Specimens.Where(sheet => wanted.Contains(sheet.OccurrenceId))
            .Select(sheet => sheet.OccurrenceId).ToListAsync(cancellation)).ToHashSet(StringComparer.Ordinal);
        return rows.ToDictionary(row => row.Id, row => taken.Add(written[row.Id]) ? written[row.Id] : "");
    }

    // A few rows at most: somebody made the number of a sheet void that is there after all.
    private async Task OpenAsync(BatchRow row, string reason, CancellationToken cancellation)
    {
        await db.Problems.Where(problem => problem.RowId == row.Id && problem.Reason == reason)
            .ExecuteDeleteAsync(cancellation);
        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO row_problem (batch_id, list_id, row_id, line, column_name, text, reason, blocks, from_file)
            VALUES ({row.BatchId}, {row.LastListId}, {row.Id}, {row.Line}, '', {row.CatalogNumber}, {reason}, {true},
                {false})
            """, cancellation);
        var open = await db.Problems.CountAsync(problem => problem.RowId == row.Id && problem.Blocks, cancellation);
        await db.Rows.Where(r => r.Id == row.Id).ExecuteUpdateAsync(
            r => r.SetProperty(one => one.OpenProblems, open)
                .SetProperty(one => one.TakenAsWrittenActId, (long?)null),
            cancellation);
    }
}
