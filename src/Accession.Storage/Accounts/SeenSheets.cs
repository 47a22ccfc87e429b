using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;

namespace Accession.Storage.Accounts;

/// <summary>
/// Which sheets somebody may see, as everyone may know them. Who works here sees all; a weed officer those of the
/// counties of the account; a collector those whose numbering collector a curator said to be this account's person.
/// </summary>
public sealed class SeenSheets(AccessionDb db)
{
    /// <summary>The numbered sheets that somebody may see.</summary>
    public IQueryable<Specimen> Of(Actor who)
    {
        if (who.SeesWholeRegister)
        {
            return db.Specimens;
        }

        // As a set that is made first: few of the sheets of a register are somebody's.
        var gatherings = GatheringsOf(who).Select(g => g.Id);
        return db.Specimens.Where(s => gatherings.Contains(s.GatheringId));
    }

    /// <summary>The gatherings that somebody may see, those without a numbered sheet included.</summary>
    public IQueryable<Gathering> GatheringsOf(Actor who)
    {
        if (who.SeesWholeRegister)
        {
            return db.Gatherings;
        }

        // Somebody is nearly always one or the other: a question by one key is answered from its index.
        var own = OwnOf(who);
        if (!who.Roles.Contains(Role.WeedOfficer))
        {
            return own;
        }

        var counties = db.AccountCounties.Where(c => c.AccountId == who.Id).Select(c => c.CountyKey);
        return who.Roles.Contains(Role.Collector)
            ? db.Gatherings.Where(g => counties.Contains(g.CountyKey) || own.Any(o => o.Id == g.Id))
            : db.Gatherings.Where(g => counties.Contains(g.CountyKey));
    }

    /// <summary>
    /// The gatherings of a collector: those that bear a number of this account's person. A spelling holds within the
    /// person's years; where two persons have it, a gathering without a year is neither's.
    /// </summary>
    public IQueryable<Gathering> OwnOf(Actor who)
    {
        var isCollector = who.Roles.Contains(Role.Collector);
        var spellings =
            from spelling in db.PersonSpellings
            join person in db.Persons on spelling.PersonId equals person.Id
            where isCollector && spelling.EndedActId == null && db.AccountTies.Any(
                t => t.AccountId == who.Id && t.EndedActId == null && t.PersonId == person.Id)
            select new
            {
                spelling.Written,
                spelling.FamilyKey,
                person.FirstYear,
                person.LastYear,
                IsShared = db.PersonSpellings.Any(
                    o => o.Written == spelling.Written && o.EndedActId == null && o.PersonId != person.Id),
            };
        var keys = spellings.Select(p => p.FamilyKey);
        return db.Gatherings.Where(g => keys.Contains(g.Notes.CollectorKey)
            && spellings.Any(p => p.FamilyKey == g.Notes.CollectorKey
                && (g.Notes.RecordedBy == p.Written || g.Notes.RecordedBy.StartsWith(p.Written + " | "))
                && (g.Notes.Year == null
                    ? !p.IsShared
                    : (p.FirstYear == null || g.Notes.Year >= p.FirstYear)
                        && (p.LastYear == null || g.Notes.Year <= p.LastYear))));
    }
}
