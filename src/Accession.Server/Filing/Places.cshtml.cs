using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Filing;

/// <summary>Places with their zones, and the form that puts sheets in one of them.</summary>
public sealed class PlacesModel(
    AccessionDb db, WritePlace write, MoveParts move, TakeMoveBack takeBack) : PageModel
{
    public IReadOnlyList<ShownPlace> Places { get; private set; } = [];

    /// <summary>What this person last moved, which can be taken back; null for nothing.</summary>
    public TakeMoveBack.Last? Last { get; private set; }

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    [BindProperty]
    public string? Codes { get; set; }

    [BindProperty]
    public long? To { get; set; }

    [BindProperty]
    public string? Reason { get; set; }

    public sealed record ShownPlace(long Id, string Name, Zone Zone, int Parts);

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        ModelState.Clear();
        var codes = (Codes ?? "").Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        var outcome = await move.RunAsync(new(codes, To, Reason), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(cancellation);
            return this.Show(outcome.Refusals, nameof(Codes));
        }

        var (parts, place) = outcome.Value;
        TempData["Said"] = parts == 1 ? $"1 sheet stands in {place} now." : $"{parts:N0} sheets stand in {place} now.";
        return Redirect("/places");
    }

    public async Task<IActionResult> OnPostBackAsync(long act, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await takeBack.RunAsync(act, HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(cancellation);
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = outcome.Value == 1
            ? "1 sheet stands where it stood before." : $"{outcome.Value:N0} sheets stand where they stood before.";
        return Redirect("/places");
    }

    public async Task<IActionResult> OnPostPlaceAsync(string? name, Zone? zone, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await write.RunAsync(new(name, zone), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(cancellation);
            return this.Show(outcome.Refusals, IsCurator ? "name" : "");
        }

        TempData["Said"] = $"{outcome.Value} is written down.";
        return Redirect("/places");
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Places = await db.Places.OrderBy(p => p.Name)
            .Select(p => new ShownPlace(p.Id, p.Name, p.Zone, db.Parts.Count(part => part.PlaceId == p.Id)))
            .ToListAsync(cancellation);
        Last = await takeBack.LastOfAsync(User.Actor().Id, cancellation);
    }
}
