using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What curators said of a person who has a spelling: what is passed in to find duplicates.</summary>
/// <param name="Written">The spelling.</param>
/// <param name="PersonId">The person.</param>
/// <param name="Years">The years of collecting, as stated.</param>
/// <param name="Habit">The way of numbering, as stated; null where nothing is said.</param>
public readonly record struct KnownSpelling(
    string Written, long PersonId, CollectingYears Years, NumberingHabit? Habit);

/// <summary>
/// What curators said of persons, by name as it is compared: spellings that differ in stops and order only are one. The
/// numbering collector is looked up with the date, because one name may be two persons' in different years.
/// </summary>
public sealed class KnownPersons
{
    private readonly Dictionary<PersonMark, List<KnownSpelling>> _byName = [];

    /// <summary>Takes what is known.</summary>
    /// <param name="spellings">Every spelling of every person; one that cannot be read is left out.</param>
    public KnownPersons(IEnumerable<KnownSpelling> spellings)
    {
        ArgumentNullException.ThrowIfNull(spellings);
        foreach (var spelling in spellings)
        {
            var team = TeamMark.Of(spelling.Written);
            if (team.Count == 0)
            {
                continue;
            }

            if (!_byName.TryGetValue(team[0], out var ofName))
            {
                _byName[team[0]] = ofName = [];
            }

            if (!ofName.Exists(other => other.PersonId == spelling.PersonId))
            {
                ofName.Add(spelling);
            }
        }
    }

    /// <summary>Nothing was said of anybody.</summary>
    public static KnownPersons Nobody { get; } = new([]);

    /// <summary>Whether nothing was said of anybody.</summary>
    public bool IsEmpty => _byName.Count == 0;

    /// <summary>
    /// Whether what was said may change what a row is found to be: its numbering collector is near to one of the names.
    /// </summary>
    /// <param name="signature">The row.</param>
    public bool MayConcern(in Signature signature)
    {
        if (signature.Team.Count == 0)
        {
            return false;
        }

        var leader = signature.Team[0];
        foreach (var name in _byName.Keys)
        {
            if (WhoComparison.Persons(leader, name).Agreement != Agreement.Contradicts)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Who a numbering collector is; null where nobody, or more than one, fits name and date.</summary>
    internal KnownSpelling? Of(in TeamMark team, in DateMark date)
    {
        if (team.Count == 0 || !_byName.TryGetValue(team[0], out var ofName))
        {
            return null;
        }

        KnownSpelling? found = null;
        foreach (var one in ofName)
        {
            if (date.IsPresent && !date.MeetsYears(one.Years))
            {
                continue;
            }

            if (found is not null)
            {
                return null;
            }

            found = one;
        }

        return found;
    }
}
