using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>The card of commands: every word that the scan lines understand, as a symbol to scan.</summary>
[Authorize(Access.Bench)]
public sealed class BenchCardModel(AccessionDb db) : PageModel
{
    private const int MostPlaces = 500;

    public IReadOnlyList<Group> Groups { get; private set; } = [];

    /// <summary>Commands that stand together.</summary>
    public sealed record Group(string Name, string About, IReadOnlyList<Command> Commands);

    /// <param name="Word">What is scanned.</param>
    /// <param name="About">What it does.</param>
    public sealed record Command(string Word, string About);

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        var places = await db.Places.AsNoTracking().OrderBy(p => p.Name).Take(MostPlaces).ToListAsync(cancellation);
        var freezers = await db.Freezers.OrderBy(f => f.Name).Select(f => f.Name).ToListAsync(cancellation);
        Groups =
        [
            new("At every bench", "A badge is scanned in the same way.",
            [
                new(BenchCommand.Undo, "Take my last sheet back"),
                new(BenchCommand.HandBack, "Who is signed in works again"),
            ]),
            new("Numbering", "",
            [
                new("next", "Take the next number of the series"), new("more", "One sheet more than on the list"),
                new(BenchCommand.SameAsLast, "Another sheet of the gathering before"),
            ]),
            new("Steps", "From then on sheets are marked with it.",
                [.. BenchCommand.Steps.Select(one => new Command(one.Word, $"Sheets are {one.Word}"))]),
            new("Places", "From then on sheets go there.",
            [
                .. places.Select(place => new Command(
                    BenchCommand.PlaceLead + place.Name, TreatmentWords.Of(place.Zone))),
            ]),
            new("Freezers", "From then on sheets and parcels go on the list that is being made for it.",
                [.. freezers.Select(name => new Command(WordOf(name), "On its list"))]),
        ];
    }

    private static string WordOf(string freezer) =>
        freezer.StartsWith(BenchCommand.FreezerLead, StringComparison.OrdinalIgnoreCase)
            ? freezer.ToLowerInvariant()
            : BenchCommand.FreezerLead + freezer;
}
