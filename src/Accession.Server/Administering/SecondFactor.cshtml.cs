using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Accession.Server.Administering;

/// <summary>After a password or a link, the code of an authenticator app, or a recovery code.</summary>
[AllowAnonymous, EnableRateLimiting(Access.SignInRate)]
public sealed class SecondFactorModel(SignInManager<Account> signIn) : PageModel
{
    private const int AppDigits = 6;

    [BindProperty]
    public string? Code { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? ReturnUrl { get; set; }

    public async Task<IActionResult> OnGetAsync() =>
        await signIn.GetTwoFactorAuthenticationUserAsync() is null ? RedirectToPage("/Administering/SignIn") : Page();

    public async Task<IActionResult> OnPostAsync()
    {
        if (await signIn.GetTwoFactorAuthenticationUserAsync() is null)
        {
            return RedirectToPage("/Administering/SignIn");
        }

        // Apps show the digits in groups, and codes are copied with blanks.
        var code = string.Concat((Code ?? "").Where(c => !char.IsWhiteSpace(c)));
        var result = code.Length == AppDigits && code.All(char.IsAsciiDigit)
            ? await signIn.TwoFactorAuthenticatorSignInAsync(code, isPersistent: false, rememberClient: false)
            : await signIn.TwoFactorRecoveryCodeSignInAsync(code);
        if (result.Succeeded)
        {
            return LocalRedirect(Url.IsLocalUrl(ReturnUrl) ? ReturnUrl : "/");
        }

        ModelState.AddModelError(
            nameof(Code), "That code does not fit, or there were too many tries. Wait for the next one and try again.");
        return new PageResult { StatusCode = StatusCodes.Status422UnprocessableEntity };
    }
}
