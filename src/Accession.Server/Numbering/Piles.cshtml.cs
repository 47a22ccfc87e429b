using Accession.Core.Numbers;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

public sealed class PilesModel(AccessionDb db) : PageModel
{
    private const int MostShown = 200;

    public IReadOnlyList<ListedPile> Shown { get; private set; } = [];

    public bool HasSeries { get; private set; }

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        HasSeries = await db.Series.AnyAsync(s => s.Use == SeriesUse.Specimens, cancellation);
        Shown = await ListedPile.AfterAsync(db, null, MostShown, cancellation);
    }
}
