using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Corrects one field of every sheet that the register found, two hundred at most, after a preview of each.
/// </summary>
[Authorize(Access.Curators)]
public sealed class CorrectManyModel(AccessionDb db, FindSheets find, CorrectMany correct) : PageModel
{
    public FindSheets.Asked Asked { get; private set; } = FindSheets.Asked.Nothing;

    /// <summary>The gatherings of the sheets that were found.</summary>
    public IReadOnlyList<long> Found { get; private set; } = [];

    public int Sheets { get; private set; }

    /// <summary>Whether there are more sheets than can be corrected at once.</summary>
    public bool IsTooMany { get; private set; }

    [BindProperty]
    public CorrectedField? Field { get; set; }

    /// <summary>"set" or "replace".</summary>
    [BindProperty]
    public string? Way { get; set; }

    [BindProperty]
    public string? Find { get; set; }

    [BindProperty]
    public string? With { get; set; }

    [BindProperty]
    public string? Reason { get; set; }

    /// <summary>The gatherings that are ticked, each with the version that was seen: "12:5f0c…".</summary>
    [BindProperty]
    public List<string> Ticked { get; set; } = [];

    /// <summary>What would be done; null before the preview.</summary>
    public IReadOnlyList<CorrectedRecords.Preview>? Preview { get; private set; }

    /// <summary>The numbers of the sheets of each gathering.</summary>
    public ILookup<long, string> Numbers { get; private set; } = Array.Empty<string>().ToLookup(_ => 0L);

    /// <summary>What leads back to the sheets that were found.</summary>
    public string Query { get; private set; } = "";

    public IEnumerable<CorrectedRecords.Preview> Changing => Preview!.Where(one => one.Changes.Count > 0);

    public IEnumerable<CorrectedRecords.Preview> Impossible => Preview!.Where(one => one.WhyNot.Count > 0);

    public int Unchanged => Preview!.Count(one => one.Changes.Count == 0 && one.WhyNot.Count == 0);

    public async Task<IActionResult> OnGetAsync(
        [FromQuery] RegisterQuery query, CancellationToken cancellation)
    {
        await LoadAsync(query, cancellation);
        Way ??= "replace";
        return Page();
    }

    /// <summary>Shows what would be done to each, and does nothing.</summary>
    public async Task<IActionResult> OnPostPreviewAsync(
        [FromQuery] RegisterQuery query, CancellationToken cancellation)
    {
        await LoadAsync(query, cancellation);
        return Change() is { } change
            ? await PreviewAsync(change, cancellation)
            : this.Show([Unclear()], Unclear().Field!);
    }

    public async Task<IActionResult> OnPostAsync(
        [FromQuery] RegisterQuery query, CancellationToken cancellation)
    {
        await LoadAsync(query, cancellation);
        if (Change() is not { } change)
        {
            return this.Show([Unclear()]);
        }

        var outcome = await correct.RunAsync(new(Chosen(), change, Reason), HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            return Redirect($"/correction/{outcome.Value.ActId}");
        }

        await PreviewAsync(change, cancellation);
        return this.Show(outcome.Refusals);
    }

    private async Task<IActionResult> PreviewAsync(FactChange change, CancellationToken cancellation)
    {
        Preview = await correct.PreviewAsync(Found, change, cancellation);
        var ids = Preview.Select(one => one.GatheringId).ToList();
        Numbers = (await db.Specimens.Where(s => ids.Contains(s.GatheringId)).OrderBy(s => s.CatalogNumber)
                .Select(s => new { s.GatheringId, s.CatalogNumber }).ToListAsync(cancellation))
            .ToLookup(s => s.GatheringId, s => s.CatalogNumber);
        return Page();
    }

    private List<CorrectMany.Chosen> Chosen() =>
    [
        .. Ticked.Select(one => one.Split(':', 2))
            .Where(parts => parts.Length == 2 && long.TryParse(parts[0], null, out _) && Guid.TryParse(parts[1], out _))
            .Select(parts => new CorrectMany.Chosen(long.Parse(parts[0], null), Guid.Parse(parts[1]))),
    ];

    private FactChange? Change() => Field is not { } field || !Enum.IsDefined(field) ? null
        : Way == "set" ? new FactChange.Set(new Dictionary<CorrectedField, string?> { [field] = With })
        : field.IsWords() && !string.IsNullOrEmpty(Find) ? new FactChange.Replace(field, Find, With ?? "")
        : null;

    private Refusal Unclear() => Field is null
        ? new(RefusalKind.Invalid, "Choose the field.") { Field = nameof(Field) }
        : Field.Value.IsWords()
            ? new(RefusalKind.Invalid, "Write the text that is to be replaced, as it stands.") { Field = nameof(Find) }
            : new(RefusalKind.Invalid, $"No text is replaced in a field of figures: say what stands there from now on.")
            {
                Field = nameof(Way),
            };

    private async Task LoadAsync(RegisterQuery query, CancellationToken cancellation)
    {
        (Asked, Query) = (query.Asked, query.ToAddress());
        var found = await find.RunAsync(Asked, User.Actor(), null, CorrectMany.Most + 1, cancellation);
        var ids = found.Certain is { } number
            ? await db.Specimens.Where(s => s.CatalogNumber == number).Select(s => s.Id).ToListAsync(cancellation)
            : [.. found.Ids];
        IsTooMany = ids.Count > CorrectMany.Most || Asked.IsEmpty;
        Sheets = ids.Count;
        Found = IsTooMany
            ? []
            : await db.Specimens.Where(s => ids.Contains(s.Id)).Select(s => s.GatheringId).Distinct()
                .ToListAsync(cancellation);
    }
}
