using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Filing;

/// <summary>Sheets that lie under a name that no longer counts, folder by folder.</summary>
[Authorize(Access.Bench)]
public sealed class RefileModel(AccessionDb db, FileUnder fileUnder) : PageModel
{
    private const int PageSize = 100;

    public IReadOnlyList<Sheet> Shown { get; private set; } = [];

    public long? Next { get; private set; }

    public sealed record Sheet(
        long Id, string CatalogNumber, int Repeat, bool IsRepeated, string FiledAs, string CurrentName)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    public Task OnGetAsync(long? after, CancellationToken cancellation) => LoadAsync(after ?? 0, cancellation);

    public async Task<IActionResult> OnPostAsync(
        long specimen, string? name, string? back, CancellationToken cancellation)
    {
        var outcome = await fileUnder.RunAsync(new(specimen, name), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(0, cancellation);
            return this.Show(outcome.Refusals);
        }

        var number = await db.Specimens.Where(s => s.Id == specimen).Select(s => s.CatalogNumber)
            .SingleAsync(cancellation);
        TempData["Said"] = $"{number} lies under {outcome.Value} now.";
        return Url.IsLocalUrl(back) ? LocalRedirect(back) : RedirectToPage();
    }

    private async Task LoadAsync(long after, CancellationToken cancellation)
    {
        // The condition of the index over the few sheets that this is true of.
        var sheets = await db.Specimens
            .Where(s => s.FiledAs != "" && s.FiledAs != s.CurrentName && s.Id > after)
            .OrderBy(s => s.Id)
            .Take(PageSize + 1)
            .Select(s => new Sheet(
                s.Id, s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.FiledAs, s.CurrentName))
            .ToListAsync(cancellation);
        Shown = [.. sheets.Take(PageSize)];
        Next = sheets.Count > PageSize ? Shown[^1].Id : null;
    }
}
