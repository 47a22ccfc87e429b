using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>The register of numbered sheets, newest first, with one box to find by and a few filters.</summary>
public sealed class SpecimensModel(AccessionDb db, FindSheets find, RegisterSheets sheets) : PageModel
{
    private const int PageSize = 50;

    public FindSheets.Asked Asked { get; private set; } = FindSheets.Asked.Of(null, null, null, null, null, null, null);

    public IReadOnlyList<RegisterSheets.Sheet> Shown { get; private set; } = [];

    /// <summary>The query of the next page; null on the last one.</summary>
    public string? Next { get; private set; }

    /// <summary>The counties that bound what is shown; null where nothing does.</summary>
    public string? Bounds { get; private set; }

    /// <summary>How many there are: "7 sheets", or "more than 1,000 sheets".</summary>
    public string Counted { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(
        string? q, string? taxon, string? collector, string? county, string? accession, int? from, int? to,
        long? before, CancellationToken cancellation)
    {
        Asked = FindSheets.Asked.Of(q, taxon, collector, county, accession, from, to);
        Bounds = await BoundsAsync(cancellation);
        var found = await find.RunAsync(Asked, User.Actor(), before, PageSize + 1, cancellation);
        if (found.Certain is { } written)
        {
            return Redirect(SpecimenAddress.Of(written));
        }

        var ids = found.Ids.Take(PageSize).ToList();
        Shown = await sheets.OfAsync(ids, cancellation);
        Next = found.Ids.Count > PageSize ? QueryOf(ids[^1]) : null;
        Counted = found.Count switch
        {
            null => "more than 1,000 sheets",
            1 => "1 sheet",
            var count => $"{count:N0} sheets",
        };
        return Page();
    }

    private string QueryOf(long before) => QueryString.Create(
        new Dictionary<string, string?>
        {
            ["q"] = Asked.Text,
            ["taxon"] = Asked.Taxon,
            ["collector"] = Asked.Collector,
            ["county"] = Asked.County,
            ["accession"] = Asked.Accession,
            ["from"] = Asked.FromYear?.ToString(null, null),
            ["to"] = Asked.ToYear?.ToString(null, null),
            ["before"] = before.ToString(null, null),
        }.Where(pair => pair.Value is not null)).Value!;

    private async Task<string?> BoundsAsync(CancellationToken cancellation)
    {
        var who = User.Actor();
        if (who.SeesWholeRegister)
        {
            return null;
        }

        List<string> bounds = who.Roles.Contains(Role.WeedOfficer)
            ? await db.AccountCounties.Where(c => c.AccountId == who.Id).OrderBy(c => c.Written)
                .Select(c => c.Written).ToListAsync(cancellation)
            : [];
        return string.Join("; ", who.Roles.Contains(Role.Collector) ? bounds.Append("what I collected") : bounds);
    }
}
