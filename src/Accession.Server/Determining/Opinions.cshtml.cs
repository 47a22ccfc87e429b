using Accession.Core.Determinations;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Determining;

/// <summary>What determiners said and no curator has decided on, the oldest first.</summary>
[Authorize(Access.Curators)]
public sealed class OpinionsModel(AccessionDb db, ChooseName choose) : PageModel
{
    private const int PageSize = 50;

    public IReadOnlyList<Waiting> Shown { get; private set; } = [];

    public long? Next { get; private set; }

    public sealed record Waiting(
        long Id, long SpecimenId, string CatalogNumber, int Repeat, bool IsRepeated, string CurrentName, string Name,
        string Qualifier, DeterminationKind Kind, string IdentifiedBy, SeenOn SeenOn, string Reason, DateTime At)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    public Task OnGetAsync(long? after, CancellationToken cancellation) => LoadAsync(after ?? 0, cancellation);

    public async Task<IActionResult> OnPostAsync(
        long specimen, long determination, bool counts, CancellationToken cancellation)
    {
        var outcome = await choose.RunAsync(
            new(specimen, determination, counts, null), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(0, cancellation);
            return this.Show(outcome.Refusals);
        }

        var number = await db.Specimens.Where(s => s.Id == specimen).Select(s => s.CatalogNumber)
            .SingleAsync(cancellation);
        TempData["Said"] = $"{outcome.Value} is the current name of {number}.";
        return RedirectToPage();
    }

    private async Task LoadAsync(long after, CancellationToken cancellation)
    {
        var found = await db.Determinations.Where(d => d.Waits && d.Id > after)
            .OrderBy(d => d.Id)
            .Take(PageSize + 1)
            .Join(db.Specimens, d => d.SpecimenId, s => s.Id, (d, s) => new Waiting(
                d.Id, s.Id, s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.CurrentName, d.Name, d.Qualifier, d.Kind, d.IdentifiedBy, d.SeenOn, d.Reason, d.Act.At))
            .ToListAsync(cancellation);
        Shown = [.. found.Take(PageSize)];
        Next = found.Count > PageSize ? Shown[^1].Id : null;
    }
}
