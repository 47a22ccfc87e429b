using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Accession.Server.Administering;

[AllowAnonymous, EnableRateLimiting(Access.SignInRate)]
public sealed class SignInModel(SignInManager<Account> signIn) : PageModel
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

        // One sentence for a wrong name, a wrong password and a locked account: nobody learns which names exist.
        ModelState.AddModelError(
            nameof(UserName),
            "Name and password do not fit together, or there were too many tries. Wait, or use a link.");
        return new PageResult { StatusCode = StatusCodes.Status422UnprocessableEntity };
    }
}
