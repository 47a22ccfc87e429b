using System.Text.Json;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Batches;
using Accession.Storage.Databases;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Keeps a label that was typed as a row of its batch, at once; or corrects one that is not in the register yet. What
/// stood there before stays on record.
/// </summary>
public sealed class KeyLabel(AccessionDb db, ListReaders readers, TimeProvider clock)
{
    /// <summary>What the act is called: by it the labels of an hour are counted.</summary>
    public const string What = "key a label";

    // Rows may be added while duplicates are looked for, which is wanted once more; not while rows are read or move.
    private static readonly string[] NotBeside = [RereadRowsWork.Kind, TakeInRowsWork.Kind, TakeOverRowsWork.Kind];

    /// <param name="Typed">What was typed, by the headings of <see cref="TypedFields"/>.</param>
    /// <param name="Corrects">The row that this corrects; null for another label.</param>
    public sealed record Request(long BatchId, IReadOnlyDictionary<string, string> Typed, long? Corrects);

    /// <summary>A row as it was kept.</summary>
    public sealed record Kept(long RowId, int Line);

    public Task<Outcome<Kept>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var what = request.Corrects is null ? What : "correct a label that was keyed";
        var act = Act.Of(door, what, clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => KeepAsync(request, act, cancellation), cancellation);
    }

    /// <summary>Takes a row out of the pile: it was typed twice, or by mistake.</summary>
    public Task<Outcome<Kept>> TakeOutAsync(long batchId, long rowId, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "take out a label that was keyed", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<Kept>(
            door, act,
            async () =>
            {
                var opened = await OpenAsync(batchId, cancellation);
                var row = opened.IsRefused ? null : await RowAsync(batchId, rowId, cancellation);
                if ((opened.IsRefused ? opened.Refusals[0] : row is null ? NoRow(batchId) : row.TakeOut()) is { } no)
                {
                    return no;
                }

                await ForgetProblemsAsync(rowId, cancellation);
                await FinishAsync(opened.Value, null, act, cancellation);
                return new Kept(rowId, row!.Line);
            },
            cancellation);
    }

    private async Task<Outcome<Kept>> KeepAsync(Request request, Act act, CancellationToken cancellation)
    {
        var cells = TypedFields.All
            .Select(field => request.Typed.GetValueOrDefault(field.Heading, "").Trim()).ToList();
        if (WhyNot(cells) is { } wrong)
        {
            return wrong;
        }

        var opened = await OpenAsync(request.BatchId, cancellation);
        if (opened.IsRefused)
        {
            return opened.Refusals.ToList();
        }

        var corrected = request.Corrects is { } id ? await RowAsync(request.BatchId, id, cancellation) : null;
        if (request.Corrects is not null && corrected is null)
        {
            return NoRow(request.BatchId);
        }

        var typed = new RowCells(cells, []);
        var kept = await StoreAsync(opened.Value, typed, corrected?.Line, cancellation);
        if (corrected is not null)
        {
            if (corrected.CorrectBy(kept.RowId) is { } refusal)
            {
                return refusal;
            }

            await ForgetProblemsAsync(corrected.Id, cancellation);
        }

        await FinishAsync(opened.Value, (typed, kept.Line), act, cancellation);
        return kept;
    }

    private static Refusal? WhyNot(List<string> cells)
    {
        if (cells.All(cell => cell.Length == 0))
        {
            return new(RefusalKind.Invalid, "Nothing was typed from this label.");
        }

        if (cells.FindIndex(cell => cell.Length > TypedField.Longest) is var wide and >= 0)
        {
            return new(RefusalKind.Invalid,
                $"{TypedFields.All[wide].Label} has {cells[wide].Length:N0} characters; "
                + $"{TypedField.Longest:N0} are kept.");
        }

        return cells.FindIndex(cell => cell.Any(char.IsControl)) is var odd and >= 0
            ? new(
                RefusalKind.Invalid, $"{TypedFields.All[odd].Label} holds a letter that cannot be seen. Type it anew.")
            : null;
    }

    // Held until the act is done: of two who type into one pile, one comes after the other.
    private async Task<Outcome<Batch>> OpenAsync(long batchId, CancellationToken cancellation)
    {
        if (await ClosedBatch.WhyNotAsync(db, batchId, isShared: false, cancellation) is { } closed)
        {
            return closed;
        }

        var batch = await db.Batches.Include(b => b.Source).Include(b => b.Lists).ThenInclude(list => list.Act)
            .SingleOrDefaultAsync(b => b.Id == batchId && b.JoinedToBatchId == null, cancellation);
        return batch?.TypedList is null
            ? new Refusal(RefusalKind.NotFound, $"There is no batch {batchId} that is typed here.")
            : await IsMovedAsync(batchId, cancellation)
            ? new Refusal(RefusalKind.Conflict, "The batch is being worked on. Wait a moment, then keep it again.")
            : batch;
    }

    private Task<bool> IsMovedAsync(long batchId, CancellationToken cancellation) => db.Work.AnyAsync(
        work => work.FinishedAt == null && NotBeside.Contains(work.Kind)
            && (work.Kind == RereadRowsWork.Kind
                ? work.Subject == batchId
                : db.Accessions.Any(lot => lot.Id == work.Subject && lot.BatchId == batchId)),
        cancellation);

    private Task<BatchRow?> RowAsync(long batchId, long rowId, CancellationToken cancellation) =>
        db.Rows.SingleOrDefaultAsync(row => row.Id == rowId && row.BatchId == batchId, cancellation);

    private static Refusal NoRow(long batchId) =>
        new(RefusalKind.NotFound, $"That row does not stand in batch {batchId}.");

    private async Task<Kept> StoreAsync(Batch batch, RowCells cells, int? line, CancellationToken cancellation)
    {
        var list = batch.TypedList!;
        var rows = db.Rows.Where(row => row.BatchId == batch.Id);
        var at = line ?? (await rows.MaxAsync(row => (int?)row.Line, cancellation) ?? 0) + 1;
        var identity = new RowIdentity(ListColumns.Headings(list.Headings)).Of(cells.Cells);
        var occurrence = 1 + (await rows.Where(row => row.Identity == identity)
            .MaxAsync(row => (int?)row.Occurrence, cancellation) ?? 0);
        var reading = readers.Of(batch, list).Read(cells);
        await db.Kind.Rows.StoreAsync(
            db,
            new(
                batch.Id, list.Id,
                [
                    new(
                        0, at, identity, occurrence, reading.PairKey, cells.ToJson(), reading.Sheets,
                        [.. reading.Faults.Select(fault => RowStaging.Of(fault, at))]),
                ],
                []),
            cancellation);
        var id = await rows.Where(row => row.Identity == identity && row.Occurrence == occurrence)
            .Select(row => row.Id).SingleAsync(cancellation);
        return new(id, at);
    }

    private Task<int> ForgetProblemsAsync(long rowId, CancellationToken cancellation) =>
        db.Problems.Where(problem => problem.RowId == rowId).ExecuteDeleteAsync(cancellation);

    private async Task FinishAsync(
        Batch batch, (RowCells Cells, int Line)? added, Act act, CancellationToken cancellation)
    {
        await db.SaveChangesAsync(cancellation);
        var list = batch.TypedList!;
        var dates = ListColumns.Dates(list.DateEvidence);
        if (added is { } row)
        {
            var (evidence, text) = readers.Of(batch, list).OrderEvidence(row.Cells);
            dates = dates.With(row.Line, text, evidence);
        }

        var standing = await db.Rows.Where(SettledRows.Standing)
            .CountAsync(one => one.BatchId == batch.Id, cancellation);
        list.Grow(ListCounts.None with { Rows = standing, Added = standing }, JsonSerializer.Serialize(dates));
        batch.ChangeRows();
        var isWanted = await db.Work.AnyAsync(
            work => work.Kind == FindDuplicatesWork.Kind && work.Subject == batch.Id && work.FinishedAt == null
                && work.Owner == null && work.StoppedAt == null,
            cancellation);
        if (!isWanted)
        {
            db.Add(WorkRow.Wanted(FindDuplicatesWork.Kind, batch.Id, act));
        }

        await ComparePermitsWork.WantAsync(db, batch.Id, act, cancellation);
    }
}
