using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>What curators decide about treatment: freezers, regimes with their sources, house rules.</summary>
public sealed class FreezersModel(
    AccessionDb db, WriteFreezer writeFreezer, WriteRegime writeRegime, MakeHouseRule makeRule, EndHouseRule endRule)
    : PageModel
{
    public IReadOnlyList<Freezer> Freezers { get; private set; } = [];

    public IReadOnlyList<Regime> Regimes { get; private set; } = [];

    public IReadOnlyList<ShownRule> Rules { get; private set; } = [];

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    public sealed record ShownRule(HouseRule Rule, string MadeBy, DateTime MadeAt, string? EndedBy, string? EndedWhy);

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostFreezerAsync(
        string? name, string? place, bool defrosts, CancellationToken cancellation) => await AnsweredAsync(
            await writeFreezer.RunAsync(new(name, place, defrosts), HttpContext.Door(), cancellation), "name",
            written => $"{written} is written down.", cancellation);

    public async Task<IActionResult> OnPostRegimeAsync(
        string? regime, string? celsius, int hours, int? cycles, int? interval, int? sealedFor, string? source,
        CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await writeRegime.RunAsync(
            new(celsius ?? "", new(
                Text(regime), 0, hours, cycles ?? 1, interval ?? 0, sealedFor ?? RegimeTerms.UsualOpenAfterHours,
                Text(source))),
            HttpContext.Door(), cancellation);
        return await AnsweredAsync(
            outcome, "regime", written => $"{written} can be chosen for loads from now on.", cancellation);
    }

    public async Task<IActionResult> OnPostRuleAsync(
        string? text, string? ruleSource, DateOnly? from, int? ruleSealedFor, string? lines,
        CancellationToken cancellation) => await AnsweredAsync(
            await makeRule.RunAsync(
                new(text, ruleSource, from, ruleSealedFor ?? RegimeTerms.UsualOpenAfterHours, lines),
                HttpContext.Door(), cancellation),
            "text", _ => "The house rule holds. What it lets in is always shown as let in by it.", cancellation);

    public async Task<IActionResult> OnPostEndRuleAsync(
        long rule, string? why, CancellationToken cancellation) => await AnsweredAsync(
            await endRule.RunAsync(new(rule, why), HttpContext.Door(), cancellation), "",
            _ => "The house rule is ended. What it let in keeps what it has.", cancellation);

    private static string Text(string? typed) => typed?.Trim() ?? "";

    private async Task<IActionResult> AnsweredAsync(
        Outcome<string> outcome, string field, Func<string, string> said, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = said(outcome.Value);
            return Redirect("/freezers");
        }

        ModelState.Clear();
        await LoadAsync(cancellation);
        return this.Show(outcome.Refusals, IsCurator ? field : "");
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Freezers = await db.Freezers.AsNoTracking().OrderBy(f => f.Name).ToListAsync(cancellation);
        Regimes = await LatestRegimes.OfAsync(db, cancellation);
        var rules = await db.HouseRules.AsNoTracking().Include(r => r.Act).Include(r => r.EndedAct)
            .OrderBy(r => r.Id).ToListAsync(cancellation);
        Rules =
        [
            .. rules.Select(r => new ShownRule(
                r, r.Act.ActorName, r.Act.At, r.EndedAct?.ActorName, r.EndedAct?.Reason)),
        ];
    }
}
