using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Where keying begins: a new pile, or one that somebody began.</summary>
public sealed class KeyPileModel(AccessionDb db, BeginPile begin) : PageModel
{
    private const int MostShown = 50;
    private const int MostSources = 500;

    [BindProperty]
    public string? SourceName { get; set; }

    [BindProperty]
    public string? ParcelTag { get; set; }

    public IReadOnlyList<KeyedPile.BeingKeyed> Piles { get; private set; } = [];

    public IReadOnlyList<string> Sources { get; private set; } = [];

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var outcome = await begin.RunAsync(new(SourceName, ParcelTag), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(cancellation);
            return this.Show(outcome.Refusals, outcome.Refusals[0].Reason.Contains("parcel", StringComparison.Ordinal)
                ? nameof(ParcelTag)
                : nameof(SourceName));
        }

        TempData["Said"] = $"Batch {outcome.Value} is begun. Type the first label.";
        return Redirect($"/batch/{outcome.Value}/keying");
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Piles = await KeyedPile.BeingKeyedAsync(db, null, MostShown, cancellation);
        Sources = await db.Sources.OrderBy(source => source.FoldedName).Select(source => source.Name)
            .Take(MostSources).ToListAsync(cancellation);
    }
}
