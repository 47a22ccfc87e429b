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

    /// <summary>How many stand on a list to print.</summary>
    public const int ListSize = 500;

    /// <summary>What nothing answers to, mended, the nearest first; empty where something does.</summary>
    public IReadOnlyList<NearText> Near { get; private set; } = [];

    /// <summary>Whether it is shown as a list to print.</summary>
    public bool IsList { get; private set; }

    /// <summary>Whether steps, places and holders may be asked for.</summary>
    public bool IsStaff => User.Actor().WorksHere;

    /// <summary>A text that is near what was typed, and where it leads.</summary>
    public sealed record NearText(string Text, string Query);

    public FindSheets.Asked Asked { get; private set; } = FindSheets.Asked.Nothing;

    /// <summary>The question as it stands behind the address.</summary>
    public string Query { get; private set; } = "";

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    public IReadOnlyList<RegisterSheets.Sheet> Shown { get; private set; } = [];

    /// <summary>The query of the next page; null on the last one.</summary>
    public string? Next { get; private set; }

    /// <summary>The counties that bound what is shown; null where nothing does.</summary>
    public string? Bounds { get; private set; }

    /// <summary>Whether all of them can be corrected at once.</summary>
    public bool IsFew { get; private set; }

    /// <summary>How many there are: "7 sheets", or "more than 1,000 sheets".</summary>
    public string Counted { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(
        [FromQuery] RegisterQuery query, long? before, bool list, CancellationToken cancellation)
    {
        var size = list ? ListSize : PageSize;
        (Asked, Query) = (query.Asked, query.ToAddress());
        Bounds = await BoundsAsync(cancellation);
        var found = await find.RunNearAsync(Asked, User.Actor(), before, size + 1, cancellation);
        if (found.Certain is { } written)
        {
            return Redirect(SpecimenAddress.Of(written));
        }

        var ids = found.Ids.Take(size).ToList();
        Shown = await sheets.OfAsync(ids, cancellation);
        Next = found.Ids.Count > size ? query.ToAddress(ids[^1]) : null;
        IsFew = !Asked.IsEmpty && found.Near.Count == 0 && found.Count <= CorrectMany.Most;
        (Near, IsList) = ([.. found.Near.Select(text => new NearText(text, query.With(text)))], list);
        Counted = found.Count switch
        {
            null => "more than 1,000 sheets",
            1 => "1 sheet",
            var count => $"{count:N0} sheets",
        };
        return Page();
    }

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
