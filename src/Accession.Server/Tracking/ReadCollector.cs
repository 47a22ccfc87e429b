using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>Reads one collector with what the register holds under the spellings.</summary>
public sealed class ReadCollector(AccessionDb db, CollectorHoldings holdings)
{
    private const int MostCandidates = 100;

    /// <summary>Reads a collector; null when there is none, or when it was merged into another.</summary>
    /// <param name="id">The collector.</param>
    /// <param name="family">A family name under which to look for further spellings; null for the own.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<ShownCollector?> RunAsync(long id, string? family, CancellationToken cancellation)
    {
        var person = await db.Persons.AsNoTracking().AsSplitQuery()
            .Include(p => p.YearsStated).ThenInclude(y => y.Act)
            .Include(p => p.HabitsStated).ThenInclude(h => h.Act)
            .SingleOrDefaultAsync(p => p.Id == id && p.MergedIntoId == null, cancellation);
        if (person is null)
        {
            return null;
        }

        var mine = person.Written.Order(StringComparer.Ordinal).ToList();
        List<string> keys =
        [
            .. mine.Select(Collectors.FamilyKeyOf).Append(Collectors.FamilyKeyOf(family ?? person.Name)).Distinct(),
        ];
        var held = await holdings.OfAsync(keys, cancellation);
        var others = (await holdings.HoldersAsync(keys, cancellation)).Where(one => one.Id != id)
            .ToLookup(one => one.Written);
        var spellings = mine.ConvertAll(written => Spelling(
            held.GetValueOrDefault(written) ?? new(written, [], 0), person.Years, [.. others[written]]));
        var numbers = await holdings.NumbersAsync(person, cancellation);
        return new(id, person.Name, person.Years, spellings)
        {
            Habit = person.Habit,
            HabitStated = person.HabitsStated is [.., var said]
                ? new(said.Act.ActorName, said.Act.At, said.Act.Reason)
                : null,
            Evidence = NumberingRuns.Of(numbers),
            Plot = NumberPlot.Of(numbers),
            Merged = await MergedAsync(id, cancellation),
            Others = await OthersAsync(id, keys, family, cancellation),
            Stated = person.YearsStated is [.., var last]
                ? new(last.Act.ActorName, last.Act.At, last.Act.Reason)
                : null,
            Stretches = YearStretch.Of(
                mine.Select(held.GetValueOrDefault).OfType<CollectorHoldings.Held>().SelectMany(one => one.OfYears)),
            Candidates =
            [
                .. held.Values.Where(one => !mine.Contains(one.Written)
                        && !others[one.Written].Any(other => other.Years.Overlap(person.Years)))
                    .OrderByDescending(one => one.All).ThenBy(one => one.Written, StringComparer.Ordinal)
                    .Take(MostCandidates)
                    .Select(one => Spelling(one, person.Years, [.. others[one.Written]])),
            ],
            Taken =
            [
                .. others.Where(one => !mine.Contains(one.Key) && one.Any(other => other.Years.Overlap(person.Years)))
                    .Select(one => one.First(other => other.Years.Overlap(person.Years))).Take(MostCandidates),
            ],
            Tied = await TiedAsync(id, cancellation),
            Free = await FreeAsync(cancellation),
        };
    }

    /// <summary>Where the address of a collector who was merged leads to; null for one who never was.</summary>
    public async Task<(string From, long Id, string Name)?> WhereToAsync(long id, CancellationToken cancellation)
    {
        var from = await db.Persons.Where(p => p.Id == id).Select(p => new { p.Name, p.MergedIntoId })
            .SingleOrDefaultAsync(cancellation);
        var to = from;
        var at = id;
        while (to?.MergedIntoId is { } next)
        {
            at = next;
            to = await db.Persons.Where(p => p.Id == next).Select(p => new { p.Name, p.MergedIntoId })
                .SingleAsync(cancellation);
        }

        return at == id ? null : (from!.Name, at, to!.Name);
    }

    private async Task<IReadOnlyList<ShownCollector.MergedOne>> MergedAsync(
        long id, CancellationToken cancellation) =>
        await db.PersonMerges.Where(m => m.IntoId == id && m.EndedActId == null).OrderBy(m => m.Id)
            .Select(m => new ShownCollector.MergedOne(
                m.PersonId, db.Persons.Where(p => p.Id == m.PersonId).Select(p => p.Name).Single(),
                m.Act.ActorName, m.Act.At, m.Act.Reason))
            .ToListAsync(cancellation);

    // By a spelling of the family name, or by the name that a curator wrote.
    private async Task<IReadOnlyList<ShownCollector.OtherOne>> OthersAsync(
        long id, List<string> keys, string? family, CancellationToken cancellation)
    {
        var word = family ?? "";
        return await db.Persons
            .Where(p => p.Id != id && p.MergedIntoId == null
                && (db.PersonSpellings.Any(
                        s => s.PersonId == p.Id && s.EndedActId == null && keys.Contains(s.FamilyKey))
                    || (word != "" && p.Name.Contains(word))))
            .OrderBy(p => p.Name).ThenBy(p => p.Id).Take(MostCandidates)
            .Select(p => new ShownCollector.OtherOne(
                p.Id, p.Name, new CollectingYears(p.FirstYear, p.LastYear),
                db.PersonSpellings.Count(s => s.PersonId == p.Id && s.EndedActId == null)))
            .ToListAsync(cancellation);
    }

    private static ShownCollector.Spelling Spelling(
        CollectorHoldings.Held held, CollectingYears years, IReadOnlyList<CollectorHoldings.Holder> others)
    {
        var outside = held.OfYears
            .Where(one => !years.Hold(one.Year) && !others.Any(other => other.Years.Hold(one.Year)))
            .Sum(one => one.Gatherings);
        return new(
            held.Written,
            held.Within(years) + (others.Count == 0 ? held.Undated : 0),
            outside,
            others.Count == 0 ? 0 : held.Undated,
            others);
    }

    private async Task<ShownCollector.TiedAccount?> TiedAsync(long id, CancellationToken cancellation) =>
        await db.AccountTies.Where(t => t.PersonId == id && t.EndedActId == null)
            .Join(db.Users, tie => tie.AccountId, user => user.Id, (tie, user) => new ShownCollector.TiedAccount(
                user.DisplayName, user.UserName!, tie.Act.At, tie.Act.ActorName, tie.Act.Reason))
            .SingleOrDefaultAsync(cancellation);

    private async Task<IReadOnlyList<ShownCollector.FreeAccount>> FreeAsync(CancellationToken cancellation) =>
        await db.Users
            .Where(user => user.ClosedAt == null
                && db.UserRoles.Any(link => link.UserId == user.Id
                    && db.Roles.Any(r => r.Id == link.RoleId && r.Name == nameof(Role.Collector)))
                && !db.AccountTies.Any(t => t.AccountId == user.Id && t.EndedActId == null))
            .OrderBy(user => user.DisplayName)
            .Select(user => new ShownCollector.FreeAccount(user.Id, user.DisplayName + ", " + user.UserName))
            .ToListAsync(cancellation);
}
