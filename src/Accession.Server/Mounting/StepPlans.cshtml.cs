using System.Globalization;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>The step plans that were written, and the form of the next one.</summary>
[Authorize(Access.Staff)]
public sealed class StepPlansModel(AccessionDb db, WriteStepPlan write) : PageModel
{
    public static IReadOnlyList<Step> AllSteps { get; } = Enum.GetValues<Step>();

    /// <summary>The series that sheets can have, each with its name; a collection has one of its own.</summary>
    public IReadOnlyList<ShownSeries> Series { get; private set; } = [];

    public IReadOnlyList<Shown> Plans { get; private set; } = [];

    public bool MayWrite => User.IsInRole(nameof(Role.Curator)) || User.IsInRole(nameof(Role.Administrator));

    [BindProperty(SupportsGet = true)]
    public long? For { get; set; }

    [BindProperty]
    public string? Reason { get; set; }

    /// <summary>Where each step stands, from 1; empty where it is not needed.</summary>
    [BindProperty]
    public Dictionary<Step, string?> Position { get; set; } = [];

    /// <summary>What must precede: "Filed Mounted" for mounted before filed.</summary>
    [BindProperty]
    public List<string> Before { get; set; } = [];

    public sealed record ShownSeries(long Id, string Name);

    /// <param name="Counts">Whether sheets that are numbered now follow it.</param>
    public sealed record Shown(
        int Edition, string For, IReadOnlyList<(Step Step, IReadOnlyList<Step> After)> Steps, DateTime? At, string? By,
        string? Reason, int Sheets, bool Counts);

    /// <summary>How a box is named that says what precedes what.</summary>
    public static string Pair(Step step, Step before) => $"{step} {before}";

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        var plans = await LoadAsync(cancellation);
        var current = plans.Find(p => p.SeriesId == For) ?? plans.First(p => p.SeriesId == null);
        foreach (var planned in current.Steps)
        {
            Position[planned.Step] = planned.Position.ToString(CultureInfo.InvariantCulture);
            Before.AddRange(planned.MustPrecede.Select(one => Pair(planned.Step, one)));
        }
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = Read() is { } steps
            ? await write.RunAsync(new(steps, For, Reason), HttpContext.Door(), cancellation)
            : new Refusal(RefusalKind.Invalid, "Number the steps 1, 2, 3 in the order in which they wait, each once.");
        if (outcome.IsRefused)
        {
            await LoadAsync(cancellation);
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] =
            $"Edition {outcome.Value} of the step plan is written. Sheets numbered from now on follow it.";
        return RedirectToPage();
    }

    private List<WriteStepPlan.Planned>? Read()
    {
        List<(int At, Step Step)> placed = [];
        foreach (var (step, text) in Position.Where(one => !string.IsNullOrWhiteSpace(one.Value)))
        {
            if (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var at)
                || placed.Any(other => other.At == at))
            {
                return null;
            }

            placed.Add((at, step));
        }

        return
        [
            .. placed.OrderBy(one => one.At).Select(one => new WriteStepPlan.Planned(
                one.Step, [.. AllSteps.Where(before => Before.Contains(Pair(one.Step, before)))])),
        ];
    }

    private async Task<List<StepPlan>> LoadAsync(CancellationToken cancellation)
    {
        Series = await db.Series.Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Name)
            .Select(s => new ShownSeries(s.Id, s.Name)).ToListAsync(cancellation);
        var plans = await db.StepPlans.AsNoTracking().Include(p => p.Act).Where(p => p.Kind == StepPlan.Sheet)
            .OrderByDescending(p => p.Edition).ToListAsync(cancellation);
        var sheets = await db.Parts.Where(p => p.PlanId != null).GroupBy(p => p.PlanId)
            .Select(g => new { g.Key, Count = g.Count() })
            .ToDictionaryAsync(g => g.Key!.Value, g => g.Count, cancellation);
        Plans =
        [
            .. plans.Select(plan => new Shown(
                plan.Edition,
                plan.SeriesId is { } id ? Series.FirstOrDefault(s => s.Id == id)?.Name ?? "a series" : "All sheets",
                [.. plan.Steps.OrderBy(s => s.Position).Select(s => (s.Step, (IReadOnlyList<Step>)[.. s.MustPrecede]))],
                plan.Act?.At, plan.Act?.ActorName, plan.Act?.Reason, sheets.GetValueOrDefault(plan.Id),
                plans.First(other => other.SeriesId == plan.SeriesId) == plan)),
        ];
        return plans;
    }
}
