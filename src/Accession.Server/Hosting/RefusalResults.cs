using System.Text.Json;
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
        RefusalKind.Outdated => StatusCodes.Status412PreconditionFailed,
        RefusalKind.NotAllowed => StatusCodes.Status403Forbidden,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>Shows the page again, with every reason above the form.</summary>
    public static PageResult Show(this PageModel page, IReadOnlyList<Refusal> refusals, string field = "")
    {
        foreach (var refusal in refusals)
        {
            page.ModelState.AddModelError(refusal.Field ?? field, refusal.Reason);
        }

        return new PageResult { StatusCode = refusals[0].Kind.StatusCode() };
    }

    /// <summary>Answers a program, with every reason; the first says the status.</summary>
    /// <param name="refusals">The reasons.</param>
    /// <param name="pointer">
    /// The field that is meant where the request itself cannot be right, as a JSON pointer.
    /// </param>
    public static Refused ToProblem(this IReadOnlyList<Refusal> refusals, string? pointer = null) => new(Problem.Of(
        refusals[0].Kind.StatusCode(),
        string.Join(' ', refusals.Select(refusal => refusal.Reason)),
        [
            .. refusals.Select(refusal => new Problem.Error(
                refusal.Reason,
                refusal.Field is { } field ? $"/{JsonNamingPolicy.CamelCase.ConvertName(field)}"
                    : refusal.Kind == RefusalKind.Invalid ? pointer : null)),
        ]));

    /// <summary>Answers a program that asked for something that is not there, or not for it to see.</summary>
    public static Refused NotThere() => new(Problem.Of(StatusCodes.Status404NotFound));
}
