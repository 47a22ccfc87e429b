using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Server.Background;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Everything that the page of a batch says in figures.</summary>
public sealed record BatchSummary(
    long Id,
    string Source,
    long? JoinedTo,
    DayMonthOrder Order,
    string Match,
    bool CarriesNumbers,
    BatchSummary.Likeness? Like,
    IReadOnlyList<BatchSummary.ShownList> Lists)
{
    /// <summary>Whether somebody has to say if this is an earlier batch's list again.</summary>
    public bool AsksWhichList => Like is { IsToldApart: false };

    /// <summary>The earlier batch that this list is much like, and how much.</summary>
    public sealed record Likeness(long BatchId, int ToTheLetter, int Alike, bool IsToldApart);

    public int Open { get; private init; }

    /// <summary>Rows that were found to belong with something, and wait for a decision.</summary>
    public int Undecided { get; private init; }

    /// <summary>Rows whose collector is being asked.</summary>
    public int Asked { get; private init; }

    /// <summary>Rows that lie outside, or may lie outside, of the permits.</summary>
    public int OutsidePermits { get; private init; }

    public int ToTakeIn { get; private init; }

    /// <summary>The sheets that the settled rows promise.</summary>
    public int SheetsToTakeIn { get; private init; }

    public int InRegister { get; private init; }

    public int Sheets { get; private init; }

    public int SheetsToNumber { get; private init; }

    public string? AccessionNumber { get; private init; }

    /// <summary>Who closed it and when; null while it is open.</summary>
    public Closing? Closed { get; private init; }

    /// <summary>The count of the pile against the rows taken in; null before any were.</summary>
    public Counted? Pile { get; private init; }

    public OrderTally Dates { get; private init; } = new();

    public bool NeedsOrder => ListColumns.AsksForOrder(Order, Dates);

    public int UnmatchedColumns { get; private init; }

    /// <summary>What no column says although rows are known by it.</summary>
    public IReadOnlyList<string> Lacks { get; private init; } = [];

    /// <summary>The latest list that could be read: a wrong file sent later takes nothing away from it.</summary>
    public ShownList Latest => Lists.LastOrDefault(list => list is { IsRead: true, RefusedBecause: null }) ?? Lists[^1];

    public sealed record Closing(string By, DateTime At);

    public sealed record Counted(int OnList, int InPile, string? Note)
    {
        public string? Difference => new PileCount(InPile, Note).Difference(OnList);
    }

    public sealed record ShownList(
        long Id, string FileName, string Format, string Headings, string DateEvidence, bool IsRead,
        string? RefusedBecause, ListCounts Counts, DateTime At, string By, bool IsTyped);

    public static async Task<BatchSummary?> OfAsync(AccessionDb db, long id, CancellationToken cancellation)
    {
        var batch = await db.Batches.Where(b => b.Id == id)
            .Select(b => new BatchSummary(
                b.Id, b.Source.Name, b.JoinedToBatchId, b.DayMonthOrder, b.Match, b.CarriesNumbers,
                b.ResemblesBatchId == null
                    ? null
                    : new Likeness(b.ResemblesBatchId.Value, b.RowsToTheLetter, b.RowsAlike, b.IsToldApart),
                b.Lists.OrderBy(l => l.Id).Select(l => new ShownList(
                    l.Id, l.FileName, l.Format, l.Headings, l.DateEvidence, l.IsRead, l.RefusedBecause, l.Counts,
                    l.Act.At, l.Act.ActorName, l.KeptAs == "")).ToList()))
            .SingleOrDefaultAsync(cancellation);
        if (batch is null || batch.JoinedTo is not null)
        {
            return batch;
        }

        var rows = db.Rows.Where(row => row.BatchId == id);
        var lot = await db.Accessions.Where(l => l.BatchId == id)
            .Select(l => new { l.Id, l.Number, l.SheetsOnList, l.SheetsInPile, l.CountNote, l.Terms })
            .SingleOrDefaultAsync(cancellation);
        var match = ListColumns.Match(batch.Latest.Headings, batch.Match, batch.CarriesNumbers);
        return batch with
        {
            Open = await rows.Where(SettledRows.Open).CountAsync(cancellation),
            Undecided = await rows.Where(SettledRows.Undecided).CountAsync(cancellation),
            Asked = await rows.Where(SettledRows.Asked).CountAsync(cancellation),
            OutsidePermits = await rows.Where(SettledRows.OutsidePermits).CountAsync(cancellation),
            ToTakeIn = await rows.Where(SettledRows.ToTakeIn).CountAsync(cancellation),
            SheetsToTakeIn = await rows.Where(SettledRows.ToTakeIn).SumAsync(row => row.Sheets, cancellation),
            Sheets = await rows.Where(SettledRows.Standing).SumAsync(row => row.Sheets, cancellation),
            InRegister = lot is null ? 0 : await db.Gatherings.CountAsync(g => g.AccessionId == lot.Id, cancellation),
            SheetsToNumber = lot is null
                ? 0
                : await db.Gatherings.Where(g => g.AccessionId == lot.Id)
                    .SumAsync(g => g.SheetsExpected - g.SheetsNumbered, cancellation),
            AccessionNumber = lot?.Number,
            Closed = await db.Batches.Where(b => b.Id == id && b.ClosedActId != null)
                .Join(db.Acts, b => b.ClosedActId, act => act.Id, (_, act) => new Closing(act.ActorName, act.At))
                .SingleOrDefaultAsync(cancellation),
            Pile = lot is null || lot.Terms == AccessionTerms.TakenOver
                ? null
                : new(lot.SheetsOnList, lot.SheetsInPile, lot.CountNote),
            Dates = ListColumns.Dates(batch.Latest.DateEvidence),
            UnmatchedColumns = match.Columns.Count(column => column.Field is null),
            Lacks = match.Columns.Count > 0 ? match.Lacks : [],
        };
    }

    /// <summary>The work that runs on a batch now, or that failed last; null when there is neither.</summary>
    public static async Task<ShownProgress?> RunningAsync(AccessionDb db, long id, CancellationToken cancellation)
    {
        var keys = await db.Batches.Where(batch => batch.Id == id)
            .Select(batch => new
            {
                ListId = batch.Lists.Max(list => (long?)list.Id) ?? 0,
                AccessionId = db.Accessions.Where(l => l.BatchId == id).Select(l => (long?)l.Id).FirstOrDefault(),
            })
            .SingleOrDefaultAsync(cancellation);
        if (keys is null)
        {
            return null;
        }

        ShownProgress?[] latest =
        [
            await ShownProgress.LatestAsync(db, ReadListWork.Kind, keys.ListId, cancellation),
            await ShownProgress.LatestAsync(db, RereadRowsWork.Kind, id, cancellation),
            await ShownProgress.LatestAsync(db, FindDuplicatesWork.Kind, id, cancellation),
            await ShownProgress.LatestAsync(db, ComparePermitsWork.Kind, id, cancellation),
            keys.AccessionId is { } lot
                ? await ShownProgress.LatestAsync(db, TakeInRowsWork.Kind, lot, cancellation)
                    ?? await ShownProgress.LatestAsync(db, TakeOverRowsWork.Kind, lot, cancellation)
                : null,
        ];
        return latest.FirstOrDefault(work => work is { IsFinished: false })
            ?? latest.FirstOrDefault(work => work?.Failure is not null);
    }
}
