using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// One bench for mounting, labelling, photographing and filing: one line to scan into, one big answer, the last ten
/// scans, and "undo".
/// </summary>
[Authorize(Access.Bench)]
public sealed class StepBenchModel(AccessionDb db, FinishStep finish, TakeStepBack takeBack) : PageModel
{
    private const int MostScans = 10;
    private const string Undo = "undo";

    public static IReadOnlyList<Step> Steps { get; } = [Step.Mounted, Step.Labelled, Step.Imaged, Step.Filed];

    public Step Step { get; private set; }

    public string? Who => User.Actor().Id;

    public Scan? Answer { get; private set; }

    public IReadOnlyList<Scan> Scans { get; private set; } = [];

    /// <summary>How many sheets wait for this step next.</summary>
    public int Waiting { get; private set; }

    /// <summary>A scan and what came of it.</summary>
    /// <param name="Mark">done, waiting or stop: shape, tone and colour.</param>
    public sealed record Scan(string Mark, string Code, string State, string Verdict, string Says, string? Address)
    {
        public static Scan Of(StepDone done) => new(
            done.IsTakenBack ? "waiting" : "done", done.Code, StateOf(done.Step, done.IsTakenBack),
            done.IsTakenBack ? $"{done.Code}: taken back" : $"{done.Code} is {Said(done.Step)}",
            Joined(
                done.Label, done.Name,
                done.Next is { } next ? $"next: {TreatmentWords.Waits(next)}" : "nothing waits"),
            SpecimenAddress.Of(done.CatalogNumber, done.Repeat, isRepeated: done.Repeat > 0));

        public static Scan Refused(string code, IReadOnlyList<Refusal> refusals) => new(
            "stop", code, "Refused", $"{code}: not done", string.Join(" ", refusals.Select(r => r.Reason)), null);

        public static Scan OnRecord(
            Step step, bool isTakenBack, string code, string label, string name, string address) => new(
            isTakenBack ? "waiting" : "done", code, StateOf(step, isTakenBack), "", Joined(label, name), address);

        private static string StateOf(Step step, bool isTakenBack) =>
            isTakenBack ? "Taken back" : TreatmentWords.Of(step);

        private static string Joined(params string[] facts) => string.Join(", ", facts.Where(fact => fact.Length > 0));
    }

    /// <summary>What was done to the sheet, in the page's words.</summary>
    public static string Said(Step step) => step == Step.Imaged ? "photographed" : step.ToString().ToLowerInvariant();

    public async Task<IActionResult> OnGetAsync(string step, CancellationToken cancellation) =>
        Knows(step) ? await ShowAsync(StatusCodes.Status200OK, cancellation) : NotFound();

    public async Task<IActionResult> OnPostAsync(string step, string? code, CancellationToken cancellation)
    {
        if (!Knows(step))
        {
            return NotFound();
        }

        var text = code?.Trim() ?? "";
        var outcome = text.Equals(Undo, StringComparison.OrdinalIgnoreCase)
            ? await takeBack.RunAsync(Step, HttpContext.Door(), cancellation)
            : await finish.RunAsync(new(Step, text), HttpContext.Door(), cancellation);
        Answer = outcome.IsRefused ? Scan.Refused(text, outcome.Refusals) : Scan.Of(outcome.Value);
        return await ShowAsync(
            outcome.IsRefused ? outcome.Refusals[0].Kind.StatusCode() : StatusCodes.Status200OK, cancellation);
    }

    private bool Knows(string step)
    {
        var isKnown = Steps.Any(one => one.ToString().Equals(step, StringComparison.OrdinalIgnoreCase));
        if (isKnown)
        {
            Step = Enum.Parse<Step>(step, ignoreCase: true);
        }

        return isKnown;
    }

    // The script asks for a fragment and keeps the line; without script the whole page is the answer.
    private async Task<IActionResult> ShowAsync(int status, CancellationToken cancellation)
    {
        Waiting = await db.Parts.CountAsync(p => p.NextStep == Step, cancellation);
        if (Answer is not null && Request.Headers["X-Scan"] == "1")
        {
            Response.StatusCode = status;
            return Partial("/Mounting/_StepFragment.cshtml", this);
        }

        var acts = await LastAsync(cancellation);
        Scans = [.. (Answer is { Mark: "stop" } refused ? acts.Prepend(refused) : acts).Take(MostScans)];
        return new PageResult { StatusCode = status };
    }

    private async Task<List<Scan>> LastAsync(CancellationToken cancellation)
    {
        var entries = await db.Parts.SelectMany(p => p.Steps)
            .Where(entry => entry.Step == Step && entry.Act.ActorId == Who)
            .OrderByDescending(entry => entry.Id).Take(MostScans)
            .Join(db.Parts, entry => entry.PartId, part => part.Id, (entry, part) => new
            {
                entry.Id,
                entry.Mark,
                part.Code,
                part.SpecimenId,
            })
            .Join(db.Specimens, one => one.SpecimenId, sheet => sheet.Id, (one, sheet) => new
            {
                one.Id,
                one.Mark,
                one.Code,
                sheet.CatalogNumber,
                sheet.Repeat,
                Label = sheet.Gathering.Notes.RecordedBy + " " + sheet.Gathering.Notes.RecordNumber,
                sheet.CurrentName,
            })
            .OrderByDescending(one => one.Id)
            .ToListAsync(cancellation);
        return entries.ConvertAll(one => Scan.OnRecord(
            Step, one.Mark == StepMark.NeededAgain, one.Code, one.Label.Trim(), one.CurrentName,
            SpecimenAddress.Of(one.CatalogNumber, one.Repeat, isRepeated: one.Repeat > 0)));
    }
}
