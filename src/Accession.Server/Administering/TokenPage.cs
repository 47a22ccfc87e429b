using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Administering;

/// <summary>What the page of one's own tokens and that of the devices have in common.</summary>
public abstract class TokenPage(
    AccessionDb db, MakeToken make, WithdrawToken withdraw, InstitutionClock calendar, TimeProvider clock) : PageModel
{
    private const int UsualDays = 90;

    [BindProperty]
    public string? Name { get; set; }

    [BindProperty]
    public List<Right> Chosen { get; set; } = [];

    [BindProperty]
    public int Days { get; set; } = UsualDays;

    /// <summary>The token that was made just now; shown this once.</summary>
    public MakeToken.Made? Made { get; private set; }

    public IReadOnlyList<ShownToken> Tokens { get; private set; } = [];

    public DateTime Now => clock.GetUtcNow().UtcDateTime;

    public string RequestKey { get; } = Guid.NewGuid().ToString("N");

    /// <summary>Whether the tokens are those of devices.</summary>
    public abstract bool ForDevices { get; }

    /// <summary>What may be chosen.</summary>
    public IEnumerable<Right> Offered => ForDevices ? Rights.OfDevices : Rights.Of(User.Actor().Roles);

    public string Day(DateTime at) => calendar.ShowDay(at);

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var outcome = await make.RunAsync(new(Name, ForDevices, Chosen, Days), HttpContext.Door(), cancellation);
        await LoadAsync(cancellation);
        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals);
        }

        Made = outcome.Value;
        ModelState.Clear();
        (Name, Chosen, Days) = (null, [], UsualDays);
        return Page();
    }

    public async Task<IActionResult> OnPostWithdrawAsync(long token, CancellationToken cancellation)
    {
        var outcome = await withdraw.RunAsync(new(token), HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = $"{outcome.Value} is withdrawn. It opens nothing any more.";
            return RedirectToPage();
        }

        ModelState.Clear();
        await LoadAsync(cancellation);
        return this.Show(outcome.Refusals);
    }

    private async Task LoadAsync(CancellationToken cancellation) => Tokens = await ShownToken.OfAsync(
        db, ForDevices ? null : User.Actor().Id, cancellation);
}
