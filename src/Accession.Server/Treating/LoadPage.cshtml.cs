using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>One load: its list, its clock, what happened to it, and what may be done next.</summary>
public sealed class LoadPageModel(
    AccessionDb db, AddToLoad add, TakeOffLoad takeOff, CloseLid close, TakeLoadOut takeOut,
    SettleLoad settle, RepeatLoad repeat,
    TimeProvider clock) : PageModel
{
    /// <summary>So many sheets are shown by their numbers; the others are counted.</summary>
    private const int MostShown = 200;

    public FreezerLoad Shown { get; private set; } = null!;

    public IReadOnlyList<Line> Items { get; private set; } = [];

    public int SheetsInAll { get; private set; }

    public IReadOnlyList<Happening> Happened { get; private set; } = [];

    public IReadOnlyList<HouseRule> Rules { get; private set; } = [];

    /// <summary>The rule under which it was let in; null when it was not.</summary>
    public HouseRule? LetInBy { get; private set; }

    public int? Repeats { get; private set; }

    public int? RepeatedBy { get; private set; }

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    public DateTime Now => clock.GetUtcNow().UtcDateTime;

    /// <summary>How long the lid has been closed without a break; null before it was.</summary>
    public TimeSpan? Inside => Shown.ClockFrom is { } from ? (Shown.TakenOutAt ?? Now) - from : null;

    [BindProperty]
    public DateTime? When { get; set; }

    [BindProperty]
    public string? Reason { get; set; }

    public sealed record Line(
        long Id, string? Tag, string? From, string? Code, string? InParcel, string Bundle, long? BatchId,
        string AddedBy,
        DateTime AddedAt);

    public sealed record Happening(LoadEvent What, DateTime At, string Who, string? Reason);

    public async Task<IActionResult> OnGetAsync(int number, CancellationToken cancellation) =>
        await LoadAsync(number, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAddAsync(
        int number, string? code, bool withSheets, string? bundle, long? batch, bool beginAgain,
        CancellationToken cancellation)
    {
        var outcome = await add.RunAsync(
            new(number, code, withSheets, bundle, batch, beginAgain), HttpContext.Door(), cancellation);
        return await AnsweredAsync(number, outcome, "code", put => $"On the list: {put}."
            + (beginAgain ? " The clock began again for everything in the load." : ""), cancellation);
    }

    public async Task<IActionResult> OnPostOffAsync(int number, long item, CancellationToken cancellation)
    {
        var outcome = await takeOff.RunAsync(new(number, item), HttpContext.Door(), cancellation);
        return await AnsweredAsync(number, outcome, "", taken => $"Off the list: {taken}.", cancellation);
    }

    public async Task<IActionResult> OnPostCloseAsync(int number, CancellationToken cancellation)
    {
        if (!ModelState.IsValid)
        {
            return await UnreadTimeAsync(number, cancellation);
        }

        var outcome = await close.RunAsync(new(number, When), HttpContext.Door(), cancellation);
        return await AnsweredAsync(
            number, outcome, nameof(When), _ => "The lid is closed: the clock runs. Do not open it.", cancellation);
    }

    public async Task<IActionResult> OnPostTakeOutAsync(int number, CancellationToken cancellation)
    {
        if (!ModelState.IsValid)
        {
            return await UnreadTimeAsync(number, cancellation);
        }

        var outcome = await takeOut.RunAsync(new(number, When), HttpContext.Door(), cancellation);
        return await AnsweredAsync(
            number, outcome, nameof(When),
            _ => "It is out. Leave everything sealed in its bag until it is as warm as the room, and settle the load.",
            cancellation);
    }

    public Task<IActionResult> OnPostHouseRuleAsync(int number, long? rule, CancellationToken cancellation) =>
        SettleAsync(new(number, LoadStanding.UnderHouseRule, rule, null), cancellation);

    public Task<IActionResult> OnPostWaiveAsync(int number, CancellationToken cancellation) =>
        SettleAsync(new(number, LoadStanding.Waived, null, Reason), cancellation);

    public Task<IActionResult> OnPostFailedAsync(int number, CancellationToken cancellation) =>
        SettleAsync(new(number, LoadStanding.Failed, null, Reason), cancellation);

    public Task<IActionResult> OnPostNotProvedAsync(int number, CancellationToken cancellation) =>
        SettleAsync(new(number, LoadStanding.NotProved, null, Reason), cancellation);

    public async Task<IActionResult> OnPostRepeatAsync(int number, CancellationToken cancellation)
    {
        var outcome = await repeat.RunAsync(new(number), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return await AnsweredAsync(number, outcome, "", _ => "", cancellation);
        }

        TempData["Said"] = $"Load {outcome.Value} has everything of load {number} on its list. Let it get as warm as "
            + "the room, then close the lid.";
        return Redirect($"/freezer-load/{outcome.Value}");
    }

    private async Task<IActionResult> SettleAsync(SettleLoad.Request request, CancellationToken cancellation)
    {
        var outcome = await settle.RunAsync(request, HttpContext.Door(), cancellation);
        return await AnsweredAsync(request.Number, outcome, nameof(Reason), standing => standing switch
        {
            LoadStanding.UnderHouseRule => "Let in under the house rule. That proves nothing, and stays on the trail.",
            LoadStanding.Waived => "Let in by you, with your reason. That proves nothing, and stays on the trail.",
            _ => "Written down. Nothing of it may come in: repeat the load with all that was in it.",
        }, cancellation);
    }

    private async Task<IActionResult> UnreadTimeAsync(int number, CancellationToken cancellation)
    {
        ModelState.Clear();
        return await LoadAsync(number, cancellation)
            ? this.Show(
                [new(RefusalKind.Invalid, "The time was not understood. Leave it empty for now.")], nameof(When))
            : NotFound();
    }

    private async Task<IActionResult> AnsweredAsync<T>(
        int number, Outcome<T> outcome, string field, Func<T, string> said, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = said(outcome.Value);
            return Redirect($"/freezer-load/{number}");
        }

        ModelState.Clear();
        return await LoadAsync(number, cancellation) ? this.Show(outcome.Refusals, field) : NotFound();
    }

    private async Task<bool> LoadAsync(int number, CancellationToken cancellation)
    {
        var load = await db.Loads.AsNoTracking().SingleOrDefaultAsync(l => l.Number == number, cancellation);
        if (load is null)
        {
            return false;
        }

        Shown = load;
        var parts = db.LoadItems.Where(i => i.LoadId == load.Id && i.PartId != null).OrderBy(i => i.Id);
        Items =
        [
            .. await Lines(db.LoadItems.Where(i => i.LoadId == load.Id && i.PartId == null).OrderBy(i => i.Id))
                .ToListAsync(cancellation),
            .. await Lines(parts.Take(MostShown)).ToListAsync(cancellation),
        ];
        SheetsInAll = await parts.CountAsync(cancellation);
        Happened = await db.Loads.Where(l => l.Id == load.Id).SelectMany(l => l.Entries)
            .OrderBy(e => e.At).ThenBy(e => e.Id)
            .Select(e => new Happening(e.What, e.At, e.Act.ActorName, e.Act.Reason)).ToListAsync(cancellation);
        Rules = await db.HouseRules.AsNoTracking().Where(r => r.EndedActId == null).OrderBy(r => r.Id)
            .ToListAsync(cancellation);
        var ruleId = load.Entries.Select(e => e.HouseRuleId).LastOrDefault(id => id is not null);
        LetInBy = ruleId is null
            ? null
            : await db.HouseRules.AsNoTracking().SingleAsync(r => r.Id == ruleId, cancellation);
        Repeats = await db.Loads.Where(l => l.Id == load.RepeatsId).Select(l => (int?)l.Number)
            .SingleOrDefaultAsync(cancellation);
        RepeatedBy = await db.Loads.Where(l => l.RepeatsId == load.Id).Select(l => (int?)l.Number)
            .SingleOrDefaultAsync(cancellation);
        return true;
    }

    private IQueryable<Line> Lines(IQueryable<LoadItem> items) => items.Select(i => new Line(
        i.Id,
        i.PartId == null ? db.Parcels.Where(p => p.Id == i.ParcelId).Select(p => p.Tag).FirstOrDefault() : null,
        i.PartId == null ? db.Parcels.Where(p => p.Id == i.ParcelId).Select(p => p.FromWhom).FirstOrDefault() : null,
        db.Parts.Where(p => p.Id == i.PartId).Select(p => p.Code).FirstOrDefault(),
        i.PartId == null ? null : db.Parcels.Where(p => p.Id == i.ParcelId).Select(p => p.Tag).FirstOrDefault(),
        i.Bundle, i.BatchId, i.Act.ActorName, i.Act.At));
}
