using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>The collectors on record, by name.</summary>
[Authorize(Access.Curators)]
public sealed class CollectorsPageModel(AccessionDb db, RecordPerson record) : PageModel
{
    private const int PageSize = 100;

    [BindProperty]
    public string? Name { get; set; }

    public IReadOnlyList<Collector> Shown { get; private set; } = [];

    public Collector? Next { get; private set; }

    public sealed record Collector(long Id, string Name, int Spellings, bool HasAccount);

    public Task OnGetAsync(string? after, long? afterId, CancellationToken cancellation) =>
        LoadAsync(after, afterId ?? 0, cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var outcome = await record.RunAsync(Name, HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            return Redirect($"/collector/{outcome.Value}");
        }

        await LoadAsync(null, 0, cancellation);
        return this.Show(outcome.Refusals, nameof(Name));
    }

    private async Task LoadAsync(string? after, long afterId, CancellationToken cancellation)
    {
        var found = await db.Persons.Where(p => p.MergedIntoId == null)
            .Where(p => after == null || p.Name.CompareTo(after) > 0 || (p.Name == after && p.Id > afterId))
            .OrderBy(p => p.Name).ThenBy(p => p.Id)
            .Take(PageSize + 1)
            .Select(p => new Collector(
                p.Id, p.Name,
                db.PersonSpellings.Count(s => s.PersonId == p.Id && s.EndedActId == null),
                db.AccountTies.Any(t => t.PersonId == p.Id && t.EndedActId == null)))
            .ToListAsync(cancellation);
        Shown = [.. found.Take(PageSize)];
        Next = found.Count > PageSize ? Shown[^1] : null;
    }
}
