using Accession.Core.People;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// What the register holds under the spellings of a family name, year by year. The numbering collector stands first;
/// whoever came along has no numbers of a gathering.
/// </summary>
public sealed class CollectorHoldings(AccessionDb db)
{
    // What more than these would show, these show too; they are the latest that came.
    private const int MostNumbers = 20_000;

    /// <summary>The gatherings under one spelling.</summary>
    /// <param name="Written">The spelling.</param>
    /// <param name="OfYears">How many of each year.</param>
    /// <param name="Undated">How many have no year.</param>
    public sealed record Held(string Written, IReadOnlyList<(int Year, int Gatherings)> OfYears, int Undated)
    {
        public int All => Undated + OfYears.Sum(one => one.Gatherings);

        /// <summary>How many are of these years.</summary>
        public int Within(CollectingYears years) =>
            OfYears.Where(one => years.Hold(one.Year)).Sum(one => one.Gatherings);
    }

    /// <summary>A person who has a spelling.</summary>
    public sealed record Holder(long Id, string Name, string Written, CollectingYears Years);

    /// <summary>Everything under these family names, spelling by spelling.</summary>
    public async Task<IReadOnlyDictionary<string, Held>> OfAsync(
        IReadOnlyCollection<string> familyKeys, CancellationToken cancellation)
    {
        var teams = await db.Gatherings.Where(g => familyKeys.Contains(g.Notes.CollectorKey))
            .GroupBy(g => new { g.Notes.RecordedBy, g.Notes.Year })
            .Select(team => new { team.Key.RecordedBy, team.Key.Year, Gatherings = team.Count() })
            .ToListAsync(cancellation);
        return teams.GroupBy(team => team.RecordedBy.Split(" | ")[0])
            .Where(one => one.Key.Length > 0)
            .ToDictionary(
                one => one.Key,
                one => new Held(
                    one.Key,
                    [
                        .. one.Where(team => team.Year != null).GroupBy(team => team.Year!.Value)
                            .OrderBy(year => year.Key).Select(year => (year.Key, year.Sum(team => team.Gatherings))),
                    ],
                    one.Where(team => team.Year == null).Sum(team => team.Gatherings)));
    }

    /// <summary>The numbers of a person with a full date, within the person's years.</summary>
    /// <param name="person">The person.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<IReadOnlyList<DatedNumber>> NumbersAsync(
        Person person, CancellationToken cancellation)
    {
        var written = person.Written.ToHashSet();
        var keys = person.Written.Select(Collectors.FamilyKeyOf).Distinct().ToList();
        var (first, last) = (person.FirstYear ?? int.MinValue, person.LastYear ?? int.MaxValue);
        var found = await db.Gatherings
            .Where(g => keys.Contains(g.Notes.CollectorKey) && g.Notes.NumberKey != "" && g.Notes.Day != null
                && g.Notes.Year >= first && g.Notes.Year <= last)
            .OrderByDescending(g => g.Id).Take(MostNumbers)
            .Select(g => new { g.Notes.RecordedBy, g.Notes.RecordNumber, g.Notes.Year, g.Notes.Month, g.Notes.Day })
            .ToListAsync(cancellation);
        return
        [
            .. found.Where(g => g.Month is not null && written.Contains(g.RecordedBy.Split(" | ")[0]))
                .Select(g => new DatedNumber(new(g.Year!.Value, g.Month!.Value, g.Day!.Value), g.RecordNumber)),
        ];
    }

    /// <summary>Who has the spellings of these family names.</summary>
    public async Task<IReadOnlyList<Holder>> HoldersAsync(
        IReadOnlyCollection<string> familyKeys, CancellationToken cancellation) =>
        await db.PersonSpellings.Where(s => s.EndedActId == null && familyKeys.Contains(s.FamilyKey))
            .Join(
                db.Persons, s => s.PersonId, p => p.Id,
                (s, p) => new { p.Id, p.Name, s.Written, p.FirstYear, p.LastYear })
            .OrderBy(one => one.Name)
            .Select(one => new Holder(one.Id, one.Name, one.Written, new CollectingYears(one.FirstYear, one.LastYear)))
            .ToListAsync(cancellation);
}
