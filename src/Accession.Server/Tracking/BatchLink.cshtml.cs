using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>The private link of a batch, for the letter to whoever sent the list.</summary>
[Authorize(Access.Curators)]
public sealed class BatchLinkModel(AccessionDb db, PrivateLinks links) : PageModel
{
    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public ShownLinks Links { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, null, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostLinkAsync(long id, CancellationToken cancellation)
    {
        var made = await links.MakeAsync(new(null, id), HttpContext.Door(), cancellation);
        return !await LoadAsync(id, made.IsRefused ? null : ShownLinks.AddressOf(Request, made.Value), cancellation)
            ? NotFound()
            : made.IsRefused ? this.Show(made.Refusals) : Page();
    }

    public async Task<IActionResult> OnPostWithdrawAsync(long id, long link, CancellationToken cancellation)
    {
        var ended = await links.WithdrawAsync(new(null, id), link, HttpContext.Door(), cancellation);
        if (!ended.IsRefused)
        {
            TempData["Said"] = "The link opens nothing any more.";
            return Redirect($"/batch/{id}/private-link");
        }

        return await LoadAsync(id, null, cancellation) ? this.Show(ended.Refusals) : NotFound();
    }

    private async Task<bool> LoadAsync(long id, string? made, CancellationToken cancellation)
    {
        var source = await db.Batches.Where(b => b.Id == id).Select(b => b.Source.Name)
            .SingleOrDefaultAsync(cancellation);
        if (source is null)
        {
            return false;
        }

        (Id, Source) = (id, source);
        Links = new($"/batch/{id}/private-link", await links.OpenAsync(new(null, id), cancellation), made);
        return true;
    }
}
