using System.Linq.Expressions;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

public sealed class RowsModel(
    AccessionDb db, TakeAsWritten takeAsWritten, CorrectTakenIn correct, ListReaders listReaders) : PageModel
{
    private const int PageSize = 50;
    private const int MostLinesNotRead = 200;

    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public RowView View { get; private set; } = RowView.Open;

    public int Count { get; private set; }

    public IReadOnlyList<ShownRow> Shown { get; private set; } = [];

    public IReadOnlyList<ShownProblem> LinesNotRead { get; private set; } = [];

    /// <summary>Whether a row of the batch may be one of the register with its number or collector corrected.</summary>
    public bool AsksWhetherInRegister { get; private set; }

    /// <summary>Where the next page begins: line and key, since rows of several lists may share a line.</summary>
    public Place? Next { get; private set; }

    public sealed record Place(int Line, long Id);

    /// <summary>What was ticked and written on a page that was refused: it stands there again.</summary>
    public IReadOnlyCollection<long> Ticked { get; private set; } = [];

    public string? Reason { get; private set; }

    public bool MaySettle => View == RowView.Open;

    /// <summary>Whether one answer for the whole list would settle rows that are shown as open.</summary>
    public bool AsksForOrder { get; private set; }

    public sealed record ShownProblem(
        long? RowId, int Line, string ColumnName, string Text, string Reason, bool Blocks);

    /// <summary>Who took a row as written in spite of its problems, when and why.</summary>
    public sealed record TakenAsWritten(string By, DateTime At, string? Reason);

    /// <param name="Was">What an earlier list said, where this row corrects it.</param>
    public sealed record ShownRow(
        long Id, int Line, RowReading Reading, IReadOnlyList<ShownProblem> Problems, bool IsInRegister,
        bool IsWithdrawn,
        TakenAsWritten? AsWritten,
        IReadOnlyList<(string Heading, string Before, string Now)>? Was,
        string? PermitWarning)
    {
        public bool Blocks => Problems.Any(problem => problem.Blocks);

        /// <summary>What happened to a row of the register since it was taken in.</summary>
        public string ChangedAfter =>
            IsWithdrawn ? ", withdrawn after it was taken in"
            : Was is not null ? ", changed after it was taken in: the record keeps what was taken in"
            : "";
    }

    public async Task<IActionResult> OnGetAsync(
        long id, string? show, int? line, long? row, CancellationToken cancellation) =>
        await LoadAsync(id, show, line is { } l && row is { } r ? new(l, r) : null, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(
        long id, string? show, List<long> rowIds, string? reason, bool every, bool corrects,
        CancellationToken cancellation)
    {
        (Ticked, Reason) = (rowIds, reason);
        if (rowIds.Count == 0 && !every)
        {
            ModelState.AddModelError("", corrects
                ? "Tick the rows that correct rows of the register."
                : "Tick the rows that are to be taken as written.");
            return await LoadAsync(id, show, null, cancellation)
                ? new PageResult { StatusCode = StatusCodes.Status422UnprocessableEntity }
                : NotFound();
        }

        if (corrects)
        {
            return await AnswerAsync(
                id, show, await correct.RunAsync(new(id, rowIds, reason), HttpContext.Door(), cancellation),
                rows => $"{rows:N0} rows lead to the gatherings that are in the register. The records keep what was "
                    + "taken in.", cancellation);
        }

        var outcome = await takeAsWritten.RunAsync(
            new(id, every ? [] : rowIds, reason), HttpContext.Door(), cancellation);
        return await AnswerAsync(
            id, show, outcome, rows => $"{rows:N0} rows are taken as written. They can go into the register now.",
            cancellation);
    }

    private async Task<IActionResult> AnswerAsync(
        long id, string? show, Outcome<int> outcome, Func<int, string> said, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = said(outcome.Value);
            return Redirect($"/batch/{id}");
        }

        return await LoadAsync(id, show, null, cancellation) ? this.Show(outcome.Refusals) : NotFound();
    }

    private async Task<bool> LoadAsync(long id, string? show, Place? after, CancellationToken cancellation)
    {
        var batch = await db.Batches.AsNoTracking().Include(b => b.Source).Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleOrDefaultAsync(b => b.Id == id, cancellation);
        if (batch is null)
        {
            return false;
        }

        (Id, Source, View) = (id, batch.Source.Name, RowView.Named(show));
        AsksWhetherInRegister = await db.Rows.Where(SettledRows.Open).Where(LikeRows.AreAsked(db))
            .AnyAsync(row => row.BatchId == id, cancellation);
        AsksForOrder = ListColumns.AsksForOrder(batch);
        var read = batch.Lists.Where(list => list is { IsRead: true, RefusedBecause: null }).OrderBy(list => list.Id)
            .Select(list => list.Id).ToList();
        var (before, listId) = (read.Count > 1 ? read[^2] : 0, read.Count > 0 ? read[^1] : 0);
        var rows = db.Rows.AsNoTracking().Where(View.Which).Where(row => row.BatchId == id);
        if (View.IsChanged)
        {
            // A row that an earlier list changed has not been changed again by one that left it as it was.
            rows = rows.Where(row => db.Rows.Any(old => old.SupersededById == row.Id && old.LastListId == before));
        }

        Count = await rows.CountAsync(cancellation);
        if (after is not null)
        {
            rows = rows.Where(row => row.Line > after.Line || (row.Line == after.Line && row.Id > after.Id));
        }

        var page = await rows
            .OrderBy(row => row.Line).ThenBy(row => row.Id).Take(PageSize + 1).ToListAsync(cancellation);
        Next = page.Count > PageSize ? new(page[PageSize - 1].Line, page[PageSize - 1].Id) : null;
        Shown = await ReadAsync(batch, [.. page.Take(PageSize)], cancellation);
        LinesNotRead = after is null && (MaySettle || View.Name == "all")
            ? await Problems(p => p.ListId == listId && p.RowId == null)
                .Take(MostLinesNotRead).ToListAsync(cancellation)
            : [];
        return true;
    }

    private async Task<List<ShownRow>> ReadAsync(Batch batch, List<BatchRow> page, CancellationToken cancellation)
    {
        var readers = listReaders.OfAll(batch);
        var headings = batch.Lists.ToDictionary(list => list.Id, list => ListColumns.Headings(list.Headings));
        var ids = page.Select(row => row.Id).ToList();
        var problems = (await Problems(p => p.RowId != null && ids.Contains(p.RowId.Value))
            .ToListAsync(cancellation)).ToLookup(p => p.RowId!.Value);
        var corrected = await db.Rows.AsNoTracking()
            .Where(old => old.SupersededById != null && ids.Contains(old.SupersededById.Value))
            .ToListAsync(cancellation);
        var was = corrected.GroupBy(old => old.SupersededById!.Value)
            .ToDictionary(g => g.Key, g => g.MaxBy(old => old.LastListId)!);
        var actIds = page.Select(row => row.TakenAsWrittenActId).Distinct().ToList();
        var acts = await db.Acts.Where(act => actIds.Contains(act.Id)).ToDictionaryAsync(
            act => act.Id, act => new TakenAsWritten(act.ActorName, act.At, act.Reason), cancellation);
        return
        [
            .. page.Select(row => new ShownRow(
                row.Id, row.Line, readers[row.FirstListId].Read(RowCells.FromJson(row.Cells)), [.. problems[row.Id]],
                row.GatheringId is not null, row.WithdrawnInListId is not null,
                row.TakenAsWrittenActId is { } actId ? acts[actId] : null,
                was.TryGetValue(row.Id, out var old)
                    ? Differences(headings[old.FirstListId], old, headings[row.FirstListId], row)
                    : null,
                row.PermitWarning)),
        ];
    }

    private static List<(string, string, string)> Differences(
        IReadOnlyList<string> headingsBefore, BatchRow before, IReadOnlyList<string> headingsNow, BatchRow now)
    {
        var old = Cells(headingsBefore, before);
        var latest = Cells(headingsNow, now);
        return
        [
            .. old.Keys.Union(latest.Keys)
                .Select(heading => (heading, old.GetValueOrDefault(heading, ""), latest.GetValueOrDefault(heading, "")))
                .Where(cell => cell.Item2.Trim() != cell.Item3.Trim()),
        ];
    }

    private static Dictionary<string, string> Cells(IReadOnlyList<string> headings, BatchRow row) =>
        headings.Zip(RowCells.FromJson(row.Cells).Cells).ToDictionary(pair => pair.First, pair => pair.Second);

    private IQueryable<ShownProblem> Problems(Expression<Func<RowProblem, bool>> which) => db.Problems
        .Where(problem => problem.BatchId == Id)
        .Where(which)
        .OrderBy(problem => problem.Line).ThenBy(problem => problem.Id)
        .Select(p => new ShownProblem(p.RowId, p.Line, p.ColumnName, p.Text, p.Reason, p.Blocks));
}
