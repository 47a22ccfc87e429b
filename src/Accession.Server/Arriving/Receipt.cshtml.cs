using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>The receipt of a parcel, the tag to stick on it and the sender's private link, for printing.</summary>
public sealed class ReceiptModel(AccessionDb db, PrivateLinks links) : PageModel
{
    public Parcel Shown { get; private set; } = null!;

    /// <summary>The place where it stands; null while that is known in words only.</summary>
    public string? Place { get; private set; }

    public ShownLinks Links { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string tag, CancellationToken cancellation) =>
        await LoadAsync(tag, null, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostLinkAsync(string tag, CancellationToken cancellation)
    {
        if (!await LoadAsync(tag, null, cancellation))
        {
            return NotFound();
        }

        var made = await links.MakeAsync(new(Shown.Id, null), HttpContext.Door(), cancellation);
        await LoadAsync(tag, made.IsRefused ? null : ShownLinks.AddressOf(Request, made.Value), cancellation);
        return made.IsRefused ? this.Show(made.Refusals) : Page();
    }

    public async Task<IActionResult> OnPostWithdrawAsync(string tag, long link, CancellationToken cancellation)
    {
        if (!await LoadAsync(tag, null, cancellation))
        {
            return NotFound();
        }

        var ended = await links.WithdrawAsync(new(Shown.Id, null), link, HttpContext.Door(), cancellation);
        if (ended.IsRefused)
        {
            return this.Show(ended.Refusals);
        }

        TempData["Said"] = "The link opens nothing any more.";
        return Redirect($"/parcel/{Shown.Tag}/receipt");
    }

    private async Task<bool> LoadAsync(string tag, string? made, CancellationToken cancellation)
    {
        var wanted = Parcel.TagIn(tag);
        var parcel = await db.Parcels.AsNoTracking().Include(p => p.Act).SingleOrDefaultAsync(
            p => p.Tag == wanted, cancellation);
        if (parcel is null)
        {
            return false;
        }

        Shown = parcel;
        Place = await db.Places.Where(p => p.Id == parcel.PlaceId).Select(p => p.Name)
            .SingleOrDefaultAsync(cancellation);
        Links = new(
            $"/parcel/{parcel.Tag}/receipt", await links.OpenAsync(new(parcel.Id, null), cancellation), made);
        return true;
    }
}
