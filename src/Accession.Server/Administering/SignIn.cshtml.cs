using Accession.Server.Hosting;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Accession.Server.Administering;

[AllowAnonymous, EnableRateLimiting(Access.SignInRate)]
public sealed class SignInModel(Doorkeeper signIn) : PageModel
{
    [BindProperty]
    public string UserName { get; set; } = "";

    [BindProperty]
    public string Password { get; set; } = "";

    [BindProperty(SupportsGet = true)]
    public string? ReturnUrl { get; set; }

    public async Task<IActionResult> OnPostAsync()
    {
        var result = await signIn.PasswordSignInAsync(UserName, Password, isPersistent: false, lockoutOnFailure: true);
        if (result.Succeeded)
        {
            return LocalRedirect(Url.IsLocalUrl(ReturnUrl) ? ReturnUrl : "/");
        }

        if (result.RequiresTwoFactor)
        {
            return RedirectToPage("/Administering/SecondFactor", new { ReturnUrl });
        }

        // One sentence for a wrong name, a wrong password and a locked account: nobody learns which names exist.
        return Refuse("Name and password do not fit together, or there were too many tries. Wait, or use a link.");
    }

    /// <summary>What the browser needs to ask for a passkey; no name is needed, so none can be probed.</summary>
    public async Task<IActionResult> OnPostPasskeyOptionsAsync() =>
        Content(await signIn.MakePasskeyRequestOptionsAsync(user: null), "application/json");

    public async Task<IActionResult> OnPostPasskeyAsync(string? credential)
    {
        ModelState.Clear();
        return (await signIn.SignInByPasskeyAsync(credential)).Succeeded
            ? LocalRedirect(Url.IsLocalUrl(ReturnUrl) ? ReturnUrl : "/")
            : Refuse("That passkey opens no account here. Use another one, a password, or a link.");
    }

    private PageResult Refuse(string reason)
    {
        ModelState.AddModelError(nameof(UserName), reason);
        return new PageResult { StatusCode = StatusCodes.Status422UnprocessableEntity };
    }
}
