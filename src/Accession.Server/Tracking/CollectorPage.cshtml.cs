using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Tracking;

/// <summary>One collector: the spellings, the years, those that may be the same person, and the account.</summary>
[Authorize(Access.Curators)]
public sealed partial class CollectorPageModel(ReadCollector read, RecordPerson record) : PageModel
{
    public ShownCollector Shown { get; private set; } = null!;

    /// <summary>What was typed to find further spellings.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Family { get; set; }

    /// <summary>The years that were typed and refused; null where nothing was.</summary>
    public StatePersonYears.Request? TypedYears { get; private set; }

    /// <summary>The way of numbering that was chosen and refused; null where none was.</summary>
    public StateNumberingHabit.Request? TypedHabit { get; private set; }

    /// <summary>How many gatherings under a spelling are nobody's, and why.</summary>
    public static string Nobodys(ShownCollector.Spelling spelling) => (spelling.Outside, spelling.Undated) switch
    {
        (var outside, 0) => $"{outside:N0} {(outside == 1 ? "is" : "are")} outside all stated years.",
        (0, var undated) =>
            $"{undated:N0} {(undated == 1 ? "has" : "have")} no year, and the spelling is two people's.",
        var (outside, undated) => $"{outside:N0} {(outside == 1 ? "is" : "are")} outside all stated years, and "
            + $"{undated:N0} {(undated == 1 ? "has" : "have")} no year while the spelling is two people's.",
    };

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? Page() : await ElsewhereAsync(id, cancellation);

    public async Task<IActionResult> OnPostAsync(long id, List<string> spellings, CancellationToken cancellation) =>
        await AnswerAsync(
            id, await record.KnowAsync(id, spellings, HttpContext.Door(), cancellation),
            name => (spellings.Count == 1 ? "That spelling is " : $"These {spellings.Count} spellings are ")
                + name.WithStop(),
            cancellation);

    public async Task<IActionResult> OnPostAwayAsync(long id, string? spelling, CancellationToken cancellation) =>
        await AnswerAsync(
            id, await record.KnowNoLongerAsync(id, spelling, HttpContext.Door(), cancellation),
            name => $"\"{spelling}\" is not {name} any more.", cancellation);

    public async Task<IActionResult> OnPostYearsAsync(
        long id, string? first, string? last, string? how, [FromServices] StatePersonYears years,
        CancellationToken cancellation)
    {
        TypedYears = new(id, first, last, how);
        return await AnswerAsync(
            id, await years.RunAsync(TypedYears, HttpContext.Door(), cancellation),
            name => $"The years of {name} are stated.", cancellation);
    }

    public async Task<IActionResult> OnPostHabitAsync(
        long id, string? habit, string? how, [FromServices] StateNumberingHabit stating,
        CancellationToken cancellation)
    {
        TypedHabit = new(id, habit, how);
        return await AnswerAsync(
            id, await stating.RunAsync(TypedHabit, HttpContext.Door(), cancellation),
            name => $"How {name} numbers is stated.", cancellation);
    }

    public async Task<IActionResult> OnPostTieAsync(
        long id, string? account, string? how, CancellationToken cancellation) => await AnswerAsync(
        id, await record.TieAsync(id, account, how, HttpContext.Door(), cancellation),
        name => $"The account follows the sheets of {name} from now on.", cancellation);

    public async Task<IActionResult> OnPostUntieAsync(long id, string? why, CancellationToken cancellation) =>
        await AnswerAsync(
            id, await record.UntieAsync(id, why, HttpContext.Door(), cancellation),
            name => $"No account follows the sheets of {name} any more.", cancellation);

    private async Task<IActionResult> AnswerAsync(
        long id, Outcome<string> outcome, Func<string, string> say, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = say(outcome.Value);
            return Redirect($"/collector/{id}");
        }

        if (await LoadAsync(id, cancellation))
        {
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = outcome.Refusals[0].Reason;
        return await ElsewhereAsync(id, cancellation);
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        Family = string.IsNullOrWhiteSpace(Family) ? null : Family.Trim();
        if (await read.RunAsync(id, Family, cancellation) is not { } shown)
        {
            return false;
        }

        Shown = shown;
        return true;
    }
}
