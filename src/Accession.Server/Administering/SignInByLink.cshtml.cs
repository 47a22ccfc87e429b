using Accession.Server.Hosting;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Accession.Server.Administering;

/// <summary>Mail scanners follow links, so opening one only shows a button; pressing it uses the link up.</summary>
[AllowAnonymous, EnableRateLimiting(Access.SignInRate)]
public sealed class SignInByLinkModel(People people, Doorkeeper doorkeeper) : PageModel
{
    public bool IsSpent { get; private set; }

    public async Task<IActionResult> OnPostAsync(string token, CancellationToken cancellation)
    {
        if (await people.UseLinkAsync(token, cancellation) is not { } account)
        {
            IsSpent = true;
            return new PageResult { StatusCode = StatusCodes.Status410Gone };
        }

        var result = await doorkeeper.SignInByLinkAsync(account);
        return LocalRedirect(result.RequiresTwoFactor ? "/sign-in/code" : "/");
    }
}
