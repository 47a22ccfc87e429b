using Accession.Core.Outcomes;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Hosting;

/// <summary>The one place where a refusal meets HTTP.</summary>
internal static class RefusalResults
{
    public static int StatusCode(this RefusalKind kind) => kind switch
    {
        RefusalKind.NotFound => StatusCodes.Status404NotFound,
        RefusalKind.Conflict => StatusCodes.Status409Conflict,
        RefusalKind.Invalid => StatusCodes.Status422UnprocessableEntity,
        RefusalKind.NotAllowed => StatusCodes.Status403Forbidden,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>Shows the page again, with every reason above the form.</summary>
    public static PageResult Show(this PageModel page, IReadOnlyList<Refusal> refusals, string field = "")
    {
        foreach (var refusal in refusals)
        {
            page.ModelState.AddModelError(field, refusal.Reason);
        }

        return new PageResult { StatusCode = refusals[0].Kind.StatusCode() };
    }
}
