using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Administering;

[Authorize]
public sealed class MyAccountModel(
    AccessionDb db, UserManager<Account> accounts, SignInManager<Account> signIn, TimeProvider clock) : PageModel
{
    [BindProperty]
    public string DisplayName { get; set; } = "";

    [BindProperty]
    public string UserName { get; set; } = "";

    [BindProperty]
    public string? Password { get; set; }

    public bool HasPassword { get; private set; }

    public async Task OnGetAsync()
    {
        var account = await MeAsync();
        (DisplayName, UserName) = (account.DisplayName, account.UserName!);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var account = await MeAsync();
        var door = HttpContext.Door();
        var outcome = await db.CarryOutAsync(
            door, Act.Of(door, "change one's account", clock.GetUtcNow().UtcDateTime),
            () => ChangeAsync(account), cancellation);
        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals);
        }

        await signIn.RefreshSignInAsync(account);
        TempData["Said"] = "Your account was saved.";
        return RedirectToPage();
    }

    private async Task<Outcome<bool>> ChangeAsync(Account account)
    {
        if (string.IsNullOrWhiteSpace(DisplayName) || string.IsNullOrWhiteSpace(UserName))
        {
            return new Refusal(RefusalKind.Invalid, "A name and something to sign in with are needed.");
        }

        account.DisplayName = DisplayName.Trim();
        account.UserName = UserName.Trim();
        List<IdentityResult> results = [await accounts.UpdateAsync(account)];
        if (!string.IsNullOrEmpty(Password))
        {
            if (account.PasswordHash is not null)
            {
                results.Add(await accounts.RemovePasswordAsync(account));
            }

            results.Add(await accounts.AddPasswordAsync(account, Password));
        }

        List<Refusal> refusals =
            [.. results.SelectMany(r => r.Errors).Select(e => new Refusal(RefusalKind.Invalid, e.Description))];
        return refusals is [] ? true : refusals;
    }

    private async Task<Account> MeAsync()
    {
        var account = await accounts.GetUserAsync(User)
            ?? throw new InvalidOperationException("The signed-in account is not in the register.");
        HasPassword = account.PasswordHash is not null;
        return account;
    }
}
