using Accession.Core.Parcels;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Arriving;

/// <summary>The receipt of a parcel and the tag to stick on it, for printing.</summary>
public sealed class ReceiptModel(AccessionDb db) : PageModel
{
    public Parcel Shown { get; private set; } = null!;

    /// <summary>The place where it stands; null while that is known in words only.</summary>
    public string? Place { get; private set; }

    public async Task<IActionResult> OnGetAsync(string tag, CancellationToken cancellation)
    {
        var wanted = Parcel.TagIn(tag);
        var parcel = await db.Parcels.AsNoTracking().Include(p => p.Act).SingleOrDefaultAsync(
            p => p.Tag == wanted, cancellation);
        if (parcel is null)
        {
            return NotFound();
        }

        Shown = parcel;
        Place = await db.Places.Where(p => p.Id == parcel.PlaceId).Select(p => p.Name)
            .SingleOrDefaultAsync(cancellation);
        return Page();
    }
}
