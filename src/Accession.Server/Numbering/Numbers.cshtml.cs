using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Numbering;

/// <summary>
/// What became of every number: on a sheet, unused on a roll, void with a reason, ready, or not issued yet.
/// </summary>
public sealed class NumbersModel(
    AccessionDb db, AccountForNumbers account, VoidNumbers makeVoid, TakeVoidBack takeBack) : PageModel
{
    private const int RunsAtFirst = 40;
    private const int RunsOfOne = 200;

    public bool MayChange => User.IsInRole(nameof(Role.Curator));

    public bool MayNumber => MayChange || User.IsInRole(nameof(Role.Technician));

    public IReadOnlyList<AccountForNumbers.SeriesAccount> Accounts { get; private set; } = [];

    public IReadOnlyList<AccountForNumbers.ShownVoid> Voids { get; private set; } = [];

    /// <summary>What came with numbers on it; null while nothing did, or one series is looked at.</summary>
    public AccountForNumbers.BorneAccount? Borne { get; private set; }

    /// <summary>The one series that is looked at; null when all are.</summary>
    public long? Series { get; private set; }

    public string? First { get; private set; }

    public string? Last { get; private set; }

    public string? Reason { get; private set; }

    public async Task<IActionResult> OnGetAsync(long? series, long? after, CancellationToken cancellation)
    {
        await LoadAsync(series, after, cancellation);
        return series is null || Accounts.Count > 0 ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostVoidAsync(
        string? first, string? last, string? reason, CancellationToken cancellation)
    {
        if (!MayChange)
        {
            return Forbid();
        }

        var outcome = await makeVoid.RunAsync(new(first, last, reason), HttpContext.Door(), cancellation);
        (First, Last, Reason) = (first, last, reason);
        return await AnswerAsync(outcome.Refusals, () => outcome.Value.Said, cancellation);
    }

    public async Task<IActionResult> OnPostBackAsync(long entry, string? why, CancellationToken cancellation)
    {
        if (!MayChange)
        {
            return Forbid();
        }

        var outcome = await takeBack.RunAsync(new(entry, why), HttpContext.Door(), cancellation);
        return await AnswerAsync(outcome.Refusals, () => outcome.Value.Said, cancellation);
    }

    /// <summary>A count of numbers in words.</summary>
    public static string Count(long numbers) => numbers == 1 ? "1 number" : $"{numbers:N0} numbers";

    private async Task<IActionResult> AnswerAsync(
        IReadOnlyList<Refusal> refusals, Func<string> said, CancellationToken cancellation)
    {
        if (refusals.Count == 0)
        {
            TempData["Said"] = said();
            return RedirectToPage();
        }

        await LoadAsync(null, null, cancellation);
        return this.Show(refusals);
    }

    private async Task LoadAsync(long? series, long? after, CancellationToken cancellation)
    {
        Series = series;
        // All figures of the page are those of one moment, whatever is numbered meanwhile.
        await using var moment = await db.Kind.ReadOneMomentAsync(db, cancellation);
        Accounts = await account.OfAsync(
            series, Math.Max(after ?? 0, 0), series is null ? RunsAtFirst : RunsOfOne, cancellation);
        Voids = await account.LastVoidsAsync(cancellation);
        Borne = series is null ? await account.BorneAsync(cancellation) : null;
    }
}
