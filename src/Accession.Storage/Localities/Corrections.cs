using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Storage.Matching;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Localities;

/// <summary>
/// Corrects accepted records within the act of the caller. The exact place is reached here, and nothing of it is given
/// back: what may be shown is read by <see cref="CorrectedRecords"/>.
/// </summary>
public sealed class Corrections(AccessionDb db)
{
    /// <summary>The records of one gathering: it, and all that a curator kept as duplicates of it.</summary>
    public async Task<List<Gathering>> TogetherAsync(
        IReadOnlyCollection<long> gatheringIds, CancellationToken cancellation)
    {
        var firsts = await db.Gatherings.Where(g => gatheringIds.Contains(g.Id)).Select(g => g.DuplicateOfId ?? g.Id)
            .Distinct().ToListAsync(cancellation);
        return await db.Gatherings.Where(g => firsts.Contains(g.DuplicateOfId ?? g.Id)).OrderBy(g => g.Id)
            .ToListAsync(cancellation);
    }

    /// <summary>
    /// Changes each gathering as far as it is to be changed. All of them are changed or, where one cannot be, none.
    /// </summary>
    /// <param name="changes">The gatherings, each with its change.</param>
    /// <param name="takesBack">The act whose corrections are taken back; null for none.</param>
    /// <param name="today">The day it is here.</param>
    /// <param name="act">The act.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>How many gatherings were changed; or why none was.</returns>
    public async Task<Outcome<int>> ApplyAsync(
        IReadOnlyList<(Gathering Gathering, FactChange Change)> changes, long? takesBack, DateOnly today, Act act,
        CancellationToken cancellation)
    {
        var ids = changes.Select(one => one.Gathering.Id).ToList();
        var held = await db.Set<ExactLocality>().Where(exact => ids.Contains(exact.GatheringId))
            .ToDictionaryAsync(exact => exact.GatheringId, cancellation);
        List<Refusal> refusals = [];
        List<long> changed = [];
        foreach (var (gathering, change) in changes)
        {
            var exact = held.GetValueOrDefault(gathering.Id);
            var entries = Correct(gathering, change, exact, today, act);
            if (entries.IsRefused)
            {
                refusals.AddRange(entries.Refusals);
            }
            else if (entries.Value.Length > 0)
            {
                changed.Add(gathering.Id);
                Add(entries.Value, takesBack);
            }
        }

        if (refusals.Count > 0 || changed.Count == 0)
        {
            return refusals.Count > 0
                ? refusals.DistinctBy(refusal => (refusal.Field, refusal.Reason)).ToList()
                : new Refusal(RefusalKind.Conflict, "All of it stands so already. Nothing was changed.");
        }

        await TellWordsAsync(changed, cancellation);
        // The key of the act is known once it is stored.
        await db.SaveChangesAsync(cancellation);
        db.Add(WorkRow.Wanted(MatchTable.SignAgain, act.Id, act));
        return changed.Count;
    }

    // What stands so already is no mistake where several are changed together.
    private static Outcome<Correction[]> Correct(
        Gathering gathering, FactChange change, ExactLocality? held, DateOnly today, Act act)
    {
        var facts = change.Read(gathering.Facts(held), today);
        return facts.IsRefused ? facts.Refusals.ToList()
            : facts.Value.Length == 0 && act.Reason is not null ? Array.Empty<Correction>()
            : gathering.Correct(facts.Value, held, act);
    }

    private void Add(Correction[] entries, long? takesBack)
    {
        foreach (var entry in entries)
        {
            if (takesBack is { } earlier)
            {
                entry.TakeBack(earlier);
            }

            db.Add(entry);
        }
    }

    private async Task TellWordsAsync(List<long> gatherings, CancellationToken cancellation)
    {
        foreach (var sheet in await db.Specimens.Include(s => s.Gathering).AsSplitQuery()
            .Where(s => gatherings.Contains(s.GatheringId)).ToListAsync(cancellation))
        {
            sheet.TellWords();
        }
    }
}
