using System.Security.Claims;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>One's own badge for the bench: made, printed once, withdrawn.</summary>
[Authorize(Access.Bench)]
public sealed class BadgePageModel(AccessionDb db, MakeBadge make, WithdrawBadge withdraw) : PageModel
{
    /// <summary>When the badge in force was made; null when none is.</summary>
    public DateTime? Since { get; private set; }

    /// <summary>The badge that was made just now; shown this once.</summary>
    public MakeBadge.Made? Made { get; private set; }

    public string RequestKey { get; } = Guid.NewGuid().ToString("N");

    /// <summary>Whether somebody works at a bench.</summary>
    public static bool IsFor(ClaimsPrincipal user) =>
        user.IsInRole(nameof(Role.Curator)) || user.IsInRole(nameof(Role.Technician));

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var outcome = await make.RunAsync(HttpContext.Door(), cancellation);
        await LoadAsync(cancellation);
        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals);
        }

        Made = outcome.Value;
        return Page();
    }

    public async Task<IActionResult> OnPostWithdrawAsync(CancellationToken cancellation)
    {
        var outcome = await withdraw.RunAsync(User.Actor().Id!, HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = "Your badge says nothing any more.";
            return RedirectToPage();
        }

        await LoadAsync(cancellation);
        return this.Show(outcome.Refusals);
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        var id = User.Actor().Id;
        Since = await db.Badges.Where(b => b.AccountId == id && b.WithdrawnAt == null)
            .Select(b => (DateTime?)b.Act.At).FirstOrDefaultAsync(cancellation);
    }
}
