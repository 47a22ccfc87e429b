using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Accession.Server.Administering;

/// <summary>Mail scanners follow links, so opening one only shows a button; pressing it uses the link up.</summary>
[AllowAnonymous, EnableRateLimiting(Access.SignInRate)]
public sealed class SignInByLinkModel(People people, SignInManager<Account> signIn) : PageModel
{
    public bool IsSpent { get; private set; }

    public async Task<IActionResult> OnPostAsync(string token, CancellationToken cancellation)
    {
        if (await people.UseLinkAsync(token, cancellation) is not { } account)
        {
            IsSpent = true;
            return new PageResult { StatusCode = StatusCodes.Status410Gone };
        }

        await signIn.SignInAsync(account, isPersistent: false);
        return LocalRedirect("/");
    }
}
