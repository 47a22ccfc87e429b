using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>What somebody who types the labels of a pile sees beside the form.</summary>
public sealed record KeyedPile(
    long BatchId, string Source, int Rows, int LastHour, int Today, IReadOnlyList<KeyedPile.Label> Last)
{
    private const int Shown = 10;

    /// <summary>A label that was typed.</summary>
    public sealed record Label(
        long RowId, int Line, IReadOnlyDictionary<string, string> Typed, FindingKind? Finding, bool IsInRegister,
        IReadOnlyList<Problem> Problems)
    {
        public string Text(string heading) => Typed.GetValueOrDefault(heading, "");

        /// <summary>Whether it may still be corrected here.</summary>
        public bool MayChange => !IsInRegister;
    }

    public sealed record Problem(string Column, string Text, string Reason, bool Blocks);

    /// <summary>The pile as one person sees it; null when no batch of that number is typed here.</summary>
    /// <param name="db">The register.</param>
    /// <param name="id">The batch.</param>
    /// <param name="who">The account whose labels of the hour are counted.</param>
    /// <param name="now">The moment.</param>
    /// <param name="dayBegan">When the day at the institution began.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<KeyedPile?> OfAsync(
        AccessionDb db, long id, string? who, DateTime now, DateTime dayBegan, CancellationToken cancellation)
    {
        var list = await Typed(db, id)
            .Select(l => new { l.Id, l.ActId, l.Headings, Source = l.Batch.Source.Name, l.Counts.Rows })
            .SingleOrDefaultAsync(cancellation);
        if (list is null)
        {
            return null;
        }

        var hourAgo = now.AddHours(-1);
        var since = hourAgo < dayBegan ? hourAgo : dayBegan;
        // Acts rise with time, so those before the pile was begun need not be looked at.
        var typed = await db.Acts
            .Where(act => act.Id > list.ActId && act.ActorId == who && act.What == KeyLabel.What && act.At >= since)
            .Select(act => act.At).ToListAsync(cancellation);
        var last = await Standing(db, id).OrderByDescending(row => row.Line).ThenByDescending(row => row.Id).Take(Shown)
            .ToListAsync(cancellation);
        return new(
            id, list.Source, list.Rows, typed.Count(at => at >= hourAgo), typed.Count(at => at >= dayBegan),
            await LabelsAsync(db, last, ListColumns.Headings(list.Headings), cancellation));
    }

    /// <summary>A pile that is being typed.</summary>
    public sealed record BeingKeyed(long BatchId, string Source, int Rows, string BegunBy, DateTime BegunAt);

    /// <summary>The piles that are being typed, the newest first.</summary>
    /// <param name="db">The register.</param>
    /// <param name="before">The batch before which the page begins; null for the first.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<IReadOnlyList<BeingKeyed>> BeingKeyedAsync(
        AccessionDb db, long? before, int take, CancellationToken cancellation) =>
        await db.Lists.Where(list => list.KeptAs == "" && list.Batch.ClosedActId == null)
            .Where(list => before == null || list.BatchId < before)
            .OrderByDescending(list => list.BatchId).Take(take)
            .Select(list => new BeingKeyed(
                list.BatchId, list.Batch.Source.Name, list.Counts.Rows, list.Act.ActorName, list.Act.At))
            .ToListAsync(cancellation);

    /// <summary>The list of a batch that is typed here; none where it is not.</summary>
    public static IQueryable<ReceivedList> Typed(AccessionDb db, long id) => db.Lists
        .Where(list => list.BatchId == id && list.KeptAs == "" && list.Batch.JoinedToBatchId == null);

    /// <summary>The labels before a line, the newest first.</summary>
    public static async Task<IReadOnlyList<Label>> EarlierAsync(
        AccessionDb db, long id, int before, CancellationToken cancellation, int take = Shown) => await LabelsAsync(
            db,
            await Standing(db, id).Where(row => row.Line < before).OrderByDescending(row => row.Line)
                .ThenByDescending(row => row.Id).Take(take).ToListAsync(cancellation),
            [.. TypedFields.All.Select(field => field.Heading)], cancellation);

    /// <summary>One label of the pile; null when it does not stand in it.</summary>
    public static async Task<Label?> LabelAsync(AccessionDb db, long id, long rowId, CancellationToken cancellation)
    {
        var row = await Standing(db, id).SingleOrDefaultAsync(r => r.Id == rowId, cancellation);
        return row is null
            ? null
            : (await LabelsAsync(db, [row], [.. TypedFields.All.Select(field => field.Heading)], cancellation))[0];
    }

    private static IQueryable<BatchRow> Standing(AccessionDb db, long id) =>
        db.Rows.AsNoTracking().Where(SettledRows.Standing).Where(row => row.BatchId == id);

    private static async Task<IReadOnlyList<Label>> LabelsAsync(
        AccessionDb db, List<BatchRow> rows, IReadOnlyList<string> headings, CancellationToken cancellation)
    {
        var ids = rows.Select(row => (long?)row.Id).ToList();
        var problems = await db.Problems.Where(problem => ids.Contains(problem.RowId)).OrderBy(problem => problem.Id)
            .Select(p => new { p.RowId, Problem = new Problem(p.ColumnName, p.Text, p.Reason, p.Blocks) })
            .ToListAsync(cancellation);
        return
        [
            .. rows.Select(row => new Label(
                row.Id, row.Line,
                headings.Zip(RowCells.FromJson(row.Cells).Cells).ToDictionary(pair => pair.First, pair => pair.Second),
                row.Finding, row.GatheringId is not null,
                [.. problems.Where(problem => problem.RowId == row.Id).Select(problem => problem.Problem)])),
        ];
    }
}
