using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Administering;

[Authorize]
public sealed class SignOutModel(SignInManager<Account> signIn, BenchHands hands) : PageModel
{
    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        await hands.HandBackAsync(HttpContext, cancellation);
        await signIn.SignOutAsync();
        return LocalRedirect("/sign-in");
    }
}
