using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Determining;

/// <summary>One sheet's names: a new opinion, and which of them counts.</summary>
[Authorize(Access.Determining)]
public sealed class NameSheetModel(
    AccessionDb db, SeenSheets seen, RecordOpinion record, ChooseName choose, InstitutionClock institution,
    TimeProvider clock) : PageModel
{
    [BindProperty]
    public string? Name { get; set; }

    [BindProperty]
    public string? Qualifier { get; set; }

    [BindProperty]
    public string? Family { get; set; }

    [BindProperty]
    public string? IdentifiedBy { get; set; }

    [BindProperty]
    public string? Date { get; set; }

    [BindProperty]
    public DeterminationKind Kind { get; set; } = DeterminationKind.NewName;

    [BindProperty]
    public SeenOn SeenOn { get; set; } = SeenOn.Sheet;

    [BindProperty]
    public string? Reason { get; set; }

    [BindProperty]
    public bool Counts { get; set; } = true;

    public bool IsCurator => User.IsInRole(nameof(Role.Curator));

    public Sheet Of { get; private set; } = null!;

    public IReadOnlyList<Given> Names { get; private set; } = [];

    /// <summary>Other sheets of the gathering whose name is another one: this may be theirs too.</summary>
    public IReadOnlyList<Sibling> Siblings { get; private set; } = [];

    public sealed record Sheet(
        long Id, string CatalogNumber, int Repeat, bool IsRepeated, string CurrentName, long? CurrentId, string Label,
        long GatheringId)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    public sealed record Given(
        long Id, string Name, string Qualifier, string IdentifiedBy, string DateIdentified, DeterminationKind Kind,
        SeenOn SeenOn, string Reason, bool Waits)
    {
        public string ForPeople => string.Join(", ", new[]
        {
            Kind.SaidBy(IdentifiedBy),
            DateIdentified.Length > 0 ? CollectingDate.FromIso8601(DateIdentified).ForPeople() : "",
            SeenOn.Said(),
        }.Where(text => text.Length > 0));
    }

    public sealed record Sibling(string CatalogNumber, int Repeat, bool IsRepeated, string Name)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated) + "/name";
    }

    public async Task<IActionResult> OnGetAsync(
        string catalogNumber, int? sheet, string? like, CancellationToken cancellation)
    {
        if (!await LoadAsync(catalogNumber, sheet, cancellation))
        {
            return NotFound();
        }

        // A duplicate was named: the same name is proposed here, and never given by itself.
        Name = like;
        SeenOn = like is null ? SeenOn.Sheet : SeenOn.Duplicate;
        IdentifiedBy = IsCurator ? null : User.Actor().Name;
        Date = institution.Day(clock.GetUtcNow().UtcDateTime).ToString("yyyy-MM-dd", null);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        if (!await LoadAsync(catalogNumber, sheet, cancellation))
        {
            return NotFound();
        }

        var outcome = await record.RunAsync(
            new(Of.Id, new(Name, Qualifier, Family, IdentifiedBy, Date, Kind, SeenOn, Reason), Counts),
            HttpContext.Door(), cancellation);
        return Answer(outcome, recorded => recorded switch
        {
            { IsDenied: true } => $"That it is not {recorded.Name} is on record. The current name is still "
                + $"{(Of.CurrentName.Length > 0 ? Of.CurrentName : "none")}, until another one counts.",
            { Waits: true } => $"{recorded.Name} is on record. A curator says whether it counts.",
            { Counts: true } => $"{recorded.Name} is the current name.",
            _ => $"{recorded.Name} is on record beside the current name.",
        });
    }

    public async Task<IActionResult> OnPostChooseAsync(
        string catalogNumber, int? sheet, long determination, bool counts, CancellationToken cancellation)
    {
        if (!await LoadAsync(catalogNumber, sheet, cancellation))
        {
            return NotFound();
        }

        ModelState.Clear();
        return Answer(
            await choose.RunAsync(new(Of.Id, determination, counts, null), HttpContext.Door(), cancellation),
            name => $"{name} is the current name.");
    }

    private IActionResult Answer<T>(Outcome<T> outcome, Func<T, string> say)
    {
        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = say(outcome.Value);
        return Redirect($"{Of.Address}/name");
    }

    private async Task<bool> LoadAsync(string catalogNumber, int? sheet, CancellationToken cancellation)
    {
        var number = SpecimenAddress.NumberIn(catalogNumber);
        var found = await seen.Of(User.Actor())
            .Where(s => s.CatalogNumber == number && (sheet == null || s.Repeat == sheet - 1))
            .OrderBy(s => s.Repeat).Take(2)
            .Select(s => new Sheet(
                s.Id, s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.CurrentName, s.CurrentDeterminationId,
                s.Gathering.Notes.RecordedBy + " " + s.Gathering.Notes.RecordNumber, s.GatheringId))
            .ToListAsync(cancellation);
        if (found is not [var only])
        {
            return false;
        }

        Of = only;
        Names = await db.Determinations.Where(d => d.SpecimenId == only.Id).OrderBy(d => d.Id)
            .Select(d => new Given(
                d.Id, d.Name, d.Qualifier, d.IdentifiedBy, d.DateIdentified, d.Kind, d.SeenOn, d.Reason, d.Waits))
            .ToListAsync(cancellation);
        var first = await db.Gatherings.Where(g => g.Id == only.GatheringId).Select(g => g.DuplicateOfId ?? g.Id)
            .SingleAsync(cancellation);
        Siblings = await seen.Of(User.Actor())
            .Where(s => s.Id != only.Id && s.CurrentName != only.CurrentName
                && (s.GatheringId == first || s.Gathering.DuplicateOfId == first))
            .OrderBy(s => s.Id)
            .Select(s => new Sibling(
                s.CatalogNumber, s.Repeat,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                s.CurrentName))
            .ToListAsync(cancellation);
        return true;
    }

    /// <summary>Whether an opinion is the one whose name counts.</summary>
    public bool IsCurrent(Given given) => given.Id == (Of.CurrentId ?? Names[0].Id);
}
