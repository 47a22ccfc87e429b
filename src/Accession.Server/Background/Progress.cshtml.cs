using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Background;

/// <summary>A piece of long work: how far it is, and the buttons that stop it and go on with it.</summary>
[Authorize(Access.Staff)]
public sealed class ProgressModel(AccessionDb db, StopWork stop) : PageModel
{
    public ShownProgress Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation)
    {
        if (await ShownProgress.OfAsync(db, id, cancellation) is not { } shown)
        {
            return NotFound();
        }

        Shown = shown;
        if (!shown.IsUnderWay)
        {
            // The page that waited shows the result itself.
            Response.Headers["HX-Refresh"] = "true";
        }

        return Request.Headers.ContainsKey("HX-Request") ? Partial("/Shared/_ProgressCount.cshtml", shown) : Page();
    }

    public async Task<IActionResult> OnPostStopAsync(long id, string? back, CancellationToken cancellation) =>
        await AnswerAsync(
            id, back, await stop.StopAsync(id, HttpContext.Door(), cancellation), "It stops after the step under way.",
            cancellation);

    public async Task<IActionResult> OnPostGoOnAsync(long id, string? back, CancellationToken cancellation) =>
        await AnswerAsync(
            id, back, await stop.GoOnAsync(id, HttpContext.Door(), cancellation), "It goes on.", cancellation);

    private async Task<IActionResult> AnswerAsync(
        long id, string? back, Outcome<string> outcome, string said, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = said;
            return Redirect(Url.IsLocalUrl(back) ? back : $"/progress/{id}");
        }

        if (await ShownProgress.OfAsync(db, id, cancellation) is not { } shown)
        {
            return outcome.Refusals[0].Kind == RefusalKind.NotAllowed ? Forbid() : NotFound();
        }

        Shown = shown;
        return this.Show(outcome.Refusals);
    }
}
