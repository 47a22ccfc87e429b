using System.ComponentModel;
using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Rows, problems and findings of a batch; all of them count as exact, so all ask for the right to settle.
/// </summary>
internal static class RowsApi
{
    public static void MapRowsApi(this IEndpointRouteBuilder api)
    {
        var batch = api.MapGroup("/batches/{id:long}").WithTags("Rows and findings").RequireRight(Right.Settle);
        batch.MapGet("/rows", ListRowsAsync).WithSummary("The rows of a batch, in the order of the list");
        batch.MapGet("/problems", ListProblemsAsync).WithSummary("What could not be read, with line and column");
        batch.MapGet("/findings", ListFindingsAsync)
            .WithSummary("Rows that were found to belong with something, and why");
        batch.MapPost("/rows-as-written", TakeAsWrittenAsync)
            .WithSummary("Take rows as written in spite of what could not be read")
            .WithMetadata(new BodyExample("""{"rowIds": [17, 23], "reason": "the collector has died"}"""));
        batch.MapPost("/decisions", DecideAsync).WithSummary("Settle a finding")
            .WithMetadata(new BodyExample("""{"rowId": 17, "decision": "keep", "seen": 4}"""));
        batch.MapPost("/findings/{rowId:long}/reopenings", ReopenAsync).WithSummary("Take a decision back");
    }

    /// <summary>A row of the list.</summary>
    /// <param name="Written">The cells to the letter, by heading.</param>
    /// <param name="Read">What was read from them.</param>
    internal sealed record ShownRow(
        long Id, int Line, IReadOnlyDictionary<string, string> Written, GatheringFacts Read, string CatalogNumber,
        int Sheets, FindingKind? Finding, RowDecision? Decision, bool IsInRegister, bool IsWithdrawn,
        bool IsTakenAsWritten, string? PermitWarning);

    /// <summary>Something that could not be read, or that a person should look at.</summary>
    /// <param name="Column">The heading; empty where the whole line is meant.</param>
    /// <param name="Blocks">Whether it keeps the row out of the register.</param>
    internal sealed record ShownProblem(
        long Id, long? RowId, int Line, string Column, string Text, string Reason, bool Blocks);

    /// <summary>A row with what it was found with.</summary>
    /// <param name="Seen">What a decision names, so that it is refused when the finding changed meanwhile.</param>
    internal sealed record ShownFinding(
        long RowId, int Line, FindingKind Finding, RowDecision? Decision, int Sheets, int AlikeNotCompared,
        GatheringFacts Row, long Seen, IReadOnlyList<ShownMember> With);

    /// <summary>What a row was found with: a gathering of the register, or another row.</summary>
    internal sealed record ShownMember(
        long Id, string Title, bool IsProtected, GatheringFacts Facts, IReadOnlyList<string> Reasons);

    /// <summary>Rows that are taken as written.</summary>
    internal sealed record AsWritten(
        [property: Description("The rows.")] IReadOnlyList<long>? RowIds,
        [property: Description("Every open row, instead of naming rows.")] bool? Every, string? Reason);

    /// <summary>How many rows it was.</summary>
    internal sealed record TakenAsWritten(int Rows);

    /// <summary>What becomes of the sheets of a row.</summary>
    internal sealed record Deciding(
        long RowId, RowDecision Decision,
        [property: Description("The seen of the finding; 0 where it had nothing to look at.")] long Seen,
        [property: Description("Why, where sheets leave.")] string? Reason,
        [property: Description("The letter, where the collector is asked by one.")] AskCollector.Question? Question);

    private static async Task<Results<Ok<Listed<ShownRow>>, Refused>> ListRowsAsync(
        long id,
        [Description("open, settled, in, permits, withdrawn or all; all without.")] string? show,
        [AsParameters] Paging paging, AccessionDb db, FoundRows found, ListReaders listReaders,
        CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        var view = RowView.All.FirstOrDefault(one => one.Name == (show ?? "all") && !one.IsChanged);
        if (view is null)
        {
            return new Refused(Problem.Of(400, "show is open, settled, in, permits, withdrawn or all."));
        }

        if (await found.BatchAsync(id, cancellation) is not { } batch)
        {
            return RefusalResults.NotThere();
        }

        var rows = await After(db.Rows.Where(view.Which).Where(row => row.BatchId == id), after)
            .Take(paging.Take)
            .Select(row => new
            {
                row.Id,
                row.Line,
                row.FirstListId,
                row.Cells,
                row.Sheets,
                row.Finding,
                row.Decision,
                IsIn = row.GatheringId != null,
                IsWithdrawn = row.WithdrawnInListId != null,
                IsAsWritten = row.TakenAsWrittenActId != null,
                row.PermitWarning,
            })
            .ToListAsync(cancellation);
        var readers = listReaders.OfAll(batch);
        var headings = batch.Lists.ToDictionary(list => list.Id, list => ListColumns.Headings(list.Headings));
        return paging.Show<ShownRow>(
            [
                .. rows.Select(row =>
                {
                    var cells = RowCells.FromJson(row.Cells);
                    var read = readers[row.FirstListId].Read(cells);
                    return new ShownRow(
                        row.Id, row.Line, Written(headings[row.FirstListId], cells),
                        GatheringFacts.Of(read.Notes, read.Place), read.CatalogNumber, row.Sheets, row.Finding,
                        row.Decision, row.IsIn, row.IsWithdrawn, row.IsAsWritten, row.PermitWarning);
                }),
            ],
            row => [row.Line, row.Id]);
    }

    private static async Task<Results<Ok<Listed<ShownProblem>>, Refused>> ListProblemsAsync(
        long id, [AsParameters] Paging paging, AccessionDb db, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        if (!await db.Batches.AnyAsync(batch => batch.Id == id, cancellation))
        {
            return RefusalResults.NotThere();
        }

        var (line, last) = after is [var l, var i] ? ((int)l, i) : (0, 0L);
        var problems = await db.Problems
            .Where(p => p.BatchId == id && (after == null || p.Line > line || (p.Line == line && p.Id > last)))
            .OrderBy(p => p.Line).ThenBy(p => p.Id)
            .Take(paging.Take)
            .Select(p => new ShownProblem(p.Id, p.RowId, p.Line, p.ColumnName, p.Text, p.Reason, p.Blocks))
            .ToListAsync(cancellation);
        return paging.Show(problems, problem => [problem.Line, problem.Id]);
    }

    private static async Task<Results<Ok<Listed<ShownFinding>>, Refused>> ListFindingsAsync(
        long id,
        [Description("undecided, asked or settled; undecided without.")] string? show,
        [AsParameters] Paging paging, AccessionDb db, FoundRows found, CancellationToken cancellation)
    {
        if (paging.WhyNot(out var after) is { } wrong)
        {
            return wrong;
        }

        if (await found.BatchAsync(id, cancellation) is not { } batch)
        {
            return RefusalResults.NotThere();
        }

        var rows = db.Rows.AsNoTracking().Where(row => row.BatchId == id);
        rows = show switch
        {
            "asked" => rows.Where(SettledRows.Asked),
            "settled" => rows.Where(
                row => row.Finding != null && row.Decision != null && row.Decision != RowDecision.Ask),
            _ => rows.Where(SettledRows.Undecided),
        };
        // Each is read with the rules of the list, for which the whole row is needed.
        var page = await After(rows, after).Take(paging.Take).ToListAsync(cancellation);
        var shown = await found.OfAsync(batch, page, cancellation);
        return paging.Show<ShownFinding>(
            [
                .. shown.Select(one => new ShownFinding(
                    one.RowId, one.Line, one.Kind, one.Decision, one.Sheets, one.AlikeNotCompared,
                    GatheringFacts.Of(one.Label.Notes, one.Label.Place), one.Closest?.Id ?? 0,
                    [
                        .. one.Members.Select(member => new ShownMember(
                            member.Id, member.Label.Title, member.Label.IsProtected,
                            GatheringFacts.Of(member.Label.Notes, member.Label.Place), member.Sentences)),
                    ])),
            ],
            one => [one.Line, one.RowId]);
    }

    private static async Task<Results<Ok<TakenAsWritten>, Refused>> TakeAsWrittenAsync(
        long id, AsWritten body, HttpContext context, TakeAsWritten takeAsWritten, CancellationToken cancellation)
    {
        if (body is { RowIds: null or { Count: 0 }, Every: not true })
        {
            return new Refused(Problem.Of(
                422, "Name the rows in rowIds, or say every.", [new("Name the rows, or say every.", "/rowIds")]));
        }

        var outcome = await takeAsWritten.RunAsync(
            new(id, body.Every == true ? [] : body.RowIds!, body.Reason), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused
            ? outcome.Refusals.ToProblem("/reason")
            : TypedResults.Ok(new TakenAsWritten(outcome.Value));
    }

    private static async Task<Results<Ok<SettleFinding.Settled>, Refused>> DecideAsync(
        long id, Deciding body, HttpContext context, SettleFinding settle, CancellationToken cancellation)
    {
        var outcome = await settle.RunAsync(
            new(id, body.RowId, body.Decision, body.Seen, body.Reason, body.Question),
            await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem("/decision") : TypedResults.Ok(outcome.Value);
    }

    private static async Task<Results<Ok<ReopenFinding.Reopened>, Refused>> ReopenAsync(
        long id, long rowId, HttpContext context, ReopenFinding reopen, CancellationToken cancellation)
    {
        var outcome = await reopen.RunAsync(new(id, rowId), await context.JsonDoorAsync(), cancellation);
        return outcome.IsRefused ? outcome.Refusals.ToProblem() : TypedResults.Ok(outcome.Value);
    }

    private static IQueryable<BatchRow> After(IQueryable<BatchRow> rows, long[]? after)
    {
        var (line, last) = after is [var l, var i] ? ((int)l, i) : (0, 0L);
        return rows.Where(row => after == null || row.Line > line || (row.Line == line && row.Id > last))
            .OrderBy(row => row.Line).ThenBy(row => row.Id);
    }

    private static Dictionary<string, string> Written(IReadOnlyList<string> headings, RowCells cells)
    {
        Dictionary<string, string> written = [];
        foreach (var (heading, text) in headings.Zip(cells.Cells))
        {
            written.TryAdd(heading, text);
        }

        return written;
    }
}
