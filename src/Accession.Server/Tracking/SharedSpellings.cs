using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Spellings that more than one person has. Their years keep them apart: no year may be of two persons of one spelling,
/// because each of their accounts would see the other's sheets.
/// </summary>
public sealed class SharedSpellings(AccessionDb db)
{
    /// <summary>
    /// Why a person of these years may not have spellings that others have; empty when nothing speaks against it. Asked
    /// in the transaction that gives them: whoever changes one of those others at once comes second.
    /// </summary>
    /// <param name="id">The person; 0 for one that is put on record by the same act.</param>
    /// <param name="years">The years of that person.</param>
    /// <param name="written">The spellings.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<List<Refusal>> WhyNotAsync(
        long id, CollectingYears years, IReadOnlyCollection<string> written, CancellationToken cancellation)
    {
        var others = await db.Persons.AsSplitQuery()
            .Where(p => p.Id != id && db.PersonSpellings.Any(
                s => s.PersonId == p.Id && s.EndedActId == null && written.Contains(s.Written)))
            .ToListAsync(cancellation);
        List<Refusal> refusals = [];
        foreach (var other in others)
        {
            other.LookedAt();
            if (other.Years.Overlap(years))
            {
                var shared = other.Written.First(written.Contains);
                refusals.Add(new(RefusalKind.Conflict,
                    $"\"{shared}\" is {other.Name} too, {YearsOf(other.Years)}. One spelling is two persons' "
                    + "only while no year is of both, or each would see the other's sheets: state the years of "
                    + "both, or take the spelling away from one."));
            }
        }

        return refusals;
    }

    /// <summary>The place that each spelling gets among those who have it, or why the person may not have it.</summary>
    /// <param name="id">The person; 0 for one that is put on record by the same act.</param>
    /// <param name="years">The years of that person.</param>
    /// <param name="written">The spellings.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<Outcome<IReadOnlyDictionary<string, int>>> PlacesAsync(
        long id, CollectingYears years, IReadOnlyCollection<string> written, CancellationToken cancellation)
    {
        // The places first: whoever gets one in between is met below, and whoever gets it later takes the same one.
        var taken = (await db.PersonSpellings
            .Where(s => s.EndedActId == null && s.PersonId != id && written.Contains(s.Written))
            .Select(s => new { s.Written, s.Place }).ToListAsync(cancellation)).ToLookup(s => s.Written, s => s.Place);
        var refusals = await WhyNotAsync(id, years, written, cancellation);
        return refusals is not []
            ? refusals
            : taken.ToDictionary(one => one.Key, one => Enumerable.Range(0, one.Count() + 1).Except(one).First());
    }

    private static string YearsOf(CollectingYears years) =>
        years.AreStated ? $"who collected {years}" : "of whom no years are stated";
}
