using System.Runtime.CompilerServices;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Localities;

/// <summary>
/// Reads records that can be corrected, and what was corrected in them. What tells the exact place of a protected plant
/// is withheld, whoever asks; a curator looks at it on record.
/// </summary>
public sealed class CorrectedRecords(AccessionDb db, TimeProvider clock)
{
    private const int Slice = 500;

    /// <summary>One field of a record, as somebody sees it who corrects it.</summary>
    /// <param name="Field">The field.</param>
    /// <param name="Written">What the collector wrote, to the letter.</param>
    /// <param name="Stands">What stands now, as it would be typed.</param>
    /// <param name="IsWithheld">Whether it is withheld; both texts are empty then.</param>
    public sealed record Stand(CorrectedField Field, string Written, string Stands, bool IsWithheld);

    /// <summary>What was corrected.</summary>
    /// <param name="Before">What stood there, for people; null where it is withheld.</param>
    /// <param name="After">What stands there since, for people; null where it is withheld.</param>
    /// <param name="Reason">Why; null where it may name a place that is withheld.</param>
    public sealed record Entry(
        long Id, long GatheringId, string Label, CorrectedField Field, string? Before, string? After, long ActId,
        string? Reason, string By, DateTime At, long? TakesBackActId);

    /// <summary>What a change would do to a record.</summary>
    /// <param name="Changes">What would change, for people.</param>
    /// <param name="WhyNot">Why it cannot be; empty where it can.</param>
    public sealed record Preview(
        long GatheringId, Guid Version, string Label, IReadOnlyList<Change> Changes, IReadOnlyList<Refusal> WhyNot);

    /// <summary>What would change in a field.</summary>
    public sealed record Change(CorrectedField Field, string Before, string After);

    private sealed record Held(Gathering Gathering, ExactLocality? Exact);

    /// <summary>What stands in a record now; null where there is no such gathering.</summary>
    public async Task<IReadOnlyList<Stand>?> StandsAsync(long gatheringId, CancellationToken cancellation) =>
        (await HeldAsync([gatheringId], cancellation)) is [var one]
            ? await StandsAsync(one, isShown: one.Exact is null, cancellation)
            : null;

    /// <summary>The same with the exact place of a protected plant; the look is put on record.</summary>
    public Task<Outcome<Stand[]>> LookAsync(long gatheringId, Door asked, CancellationToken cancellation) =>
        OnRecordAsync(gatheringId, asked, one => StandsAsync(one, isShown: true, cancellation), cancellation);

    /// <summary>What a change would do to records; a protected place is not shown, and not changed unseen.</summary>
    public async Task<IReadOnlyList<Preview>> PreviewAsync(
        IReadOnlyCollection<long> gatheringIds, FactChange change, DateOnly today, CancellationToken cancellation) =>
        [
            .. (await HeldAsync(gatheringIds, cancellation)).Select(one => PreviewOf(one, change, today,
                isShown: one.Exact is null || !change.Fields.Any(field => field.IsOfExactPlace()))),
        ];

    /// <summary>The same for one record with the exact place of a protected plant; the look is put on record.</summary>
    public Task<Outcome<Preview[]>> PreviewExactAsync(
        long gatheringId, FactChange change, DateOnly today, Door asked, CancellationToken cancellation) =>
        OnRecordAsync(
            gatheringId, asked, one => Task.FromResult<Preview[]>([PreviewOf(one, change, today, isShown: true)]),
            cancellation);

    /// <summary>What was corrected, the oldest first, as everyone may know it.</summary>
    /// <param name="entries">Which corrections.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<IReadOnlyList<Entry>> EntriesAsync(
        IQueryable<Correction> entries, CancellationToken cancellation)
    {
        var found = await entries.OrderBy(c => c.Id)
            .Join(db.Gatherings, c => c.GatheringId, g => g.Id, (c, g) => new
            {
                Entry = c,
                ExactBefore = c.Exact == null ? null : c.Exact.Before,
                ExactAfter = c.Exact == null ? null : c.Exact.After,
                c.Act.Reason,
                c.Act.ActorName,
                c.Act.At,
                g.Notes.RecordedBy,
                g.Notes.RecordNumber,
                IsProtected = g.Protection != SensitivityCategory.NotSensitive,
            })
            .AsNoTracking().ToListAsync(cancellation);
        return found.ConvertAll(one =>
        {
            var (entry, field) = (one.Entry, one.Entry.Field);
            var isWithheld = one.IsProtected && field.IsOfExactPlace();
            return new Entry(
                entry.Id, entry.GatheringId, $"{one.RecordedBy} {one.RecordNumber}".Trim(), field,
                isWithheld ? null : RecordedFacts.ForPeople(field, one.ExactBefore ?? entry.Before),
                isWithheld ? null : RecordedFacts.ForPeople(field, one.ExactAfter ?? entry.After),
                entry.ActId, one.IsProtected ? null : one.Reason, one.ActorName, one.At,
                entry.TakesBackActId);
        });
    }

    /// <summary>What takes back the corrections of an act, by gathering; nothing where it corrected nothing.</summary>
    public async Task<IReadOnlyDictionary<long, FactChange>> TakingBackAsync(
        long actId, CancellationToken cancellation) => (await db.Corrections.Include(c => c.Exact).AsNoTracking()
            .Where(c => c.ActId == actId).OrderBy(c => c.Id).ToListAsync(cancellation))
        .GroupBy(c => c.GatheringId)
        .ToDictionary(group => group.Key, group => (FactChange)new FactChange.TakeBack(
            [.. group.Select(c => (c.Field, BeforeOf(c), AfterOf(c)))]));

    /// <summary>
    /// Makes of what a row says what its gathering is compared by: the row as it was read, with what was corrected
    /// since.
    /// </summary>
    public async Task<Func<long, RowReading, RowReading>> AsCorrectedAsync(
        IReadOnlyCollection<long> gatheringIds, CancellationToken cancellation)
    {
        var corrected = (await db.Corrections.Include(c => c.Exact).AsNoTracking()
                .Where(c => gatheringIds.Contains(c.GatheringId)).OrderBy(c => c.Id).ToListAsync(cancellation))
            .ToLookup(c => c.GatheringId);
        return (id, reading) =>
        {
            if (!corrected.Contains(id))
            {
                return reading;
            }

            var facts = corrected[id].Aggregate(
                new RecordedFacts(reading.Notes, reading.Place), (all, c) => all.With(c.Field, AfterOf(c)));
            // Collectors are compared by what is written; where another was meant, by whom was meant.
            var notes = facts.Notes.RecordedBy == reading.Notes.RecordedBy
                ? facts.Notes
                : facts.Notes with { CollectorsVerbatim = facts.Notes.RecordedBy };
            return reading with { Notes = notes, Place = facts.Place };
        };
    }

    /// <summary>
    /// The fields of which something else stands than the corrections say. For <c>verify</c>: it learns which, never
    /// what.
    /// </summary>
    public async IAsyncEnumerable<(long GatheringId, string What)> WronglyCorrectedAsync(
        [EnumeratorCancellation] CancellationToken cancellation)
    {
        long after = 0;
        while (true)
        {
            var from = after;
            var ids = await db.Corrections.Where(c => c.GatheringId > from).Select(c => c.GatheringId).Distinct()
                .OrderBy(id => id).Take(Slice).ToListAsync(cancellation);
            if (ids.Count == 0)
            {
                yield break;
            }

            var entries = (await db.Corrections.Include(c => c.Exact).AsNoTracking()
                    .Where(c => ids.Contains(c.GatheringId)).OrderBy(c => c.Id).ToListAsync(cancellation))
                .ToLookup(c => c.GatheringId);
            foreach (var one in await HeldAsync(ids, cancellation))
            {
                foreach (var what in Wrong(one, entries[one.Gathering.Id]))
                {
                    yield return (one.Gathering.Id, what);
                }
            }

            after = ids[^1];
        }
    }

    private static IEnumerable<string> Wrong(Held one, IEnumerable<Correction> entries)
    {
        var facts = one.Gathering.Facts(one.Exact);
        foreach (var field in entries.GroupBy(c => c.Field))
        {
            var last = field.Aggregate((string?)null, (stood, c) =>
                stood is null || stood == BeforeOf(c) ? AfterOf(c) : "\0");
            if (last != facts.Text(field.Key))
            {
                yield return field.Key.ToString();
            }
        }

        if (CountyName.KeyOf(facts.Place.StateProvince, facts.Place.County) != one.Gathering.CountyKey)
        {
            yield return "CountyKey";
        }
    }

    private Task<Outcome<T[]>> OnRecordAsync<T>(
        long gatheringId, Door asked, Func<Held, Task<T[]>> show, CancellationToken cancellation)
    {
        // Without the key nothing of the answer is stored with the act; looking again is looking again.
        var door = asked with { RequestKey = null };
        return db.CarryOutAsync<T[]>(
            door,
            Act.Of(door, "look at an exact place", clock.GetUtcNow().UtcDateTime, $"gathering {gatheringId}"),
            async () => !door.By.MaySeeExactLocalities
                ? new Refusal(RefusalKind.NotAllowed, "Exact places of protected plants are for curators.")
                : await HeldAsync([gatheringId], cancellation) is [var one]
                    ? await show(one)
                    : new Refusal(RefusalKind.NotFound, "That gathering is not in the register."),
            cancellation);
    }

    private async Task<List<Held>> HeldAsync(IReadOnlyCollection<long> ids, CancellationToken cancellation)
    {
        var exact = await db.Set<ExactLocality>().AsNoTracking().Where(e => ids.Contains(e.GatheringId))
            .ToDictionaryAsync(e => e.GatheringId, cancellation);
        var gatherings = await db.Gatherings.AsNoTracking().Where(g => ids.Contains(g.Id)).OrderBy(g => g.Id)
            .ToListAsync(cancellation);
        return gatherings.ConvertAll(gathering => new Held(gathering, exact.GetValueOrDefault(gathering.Id)));
    }

    private async Task<Stand[]> StandsAsync(Held one, bool isShown, CancellationToken cancellation)
    {
        var facts = one.Gathering.Facts(one.Exact);
        var firsts = (await db.Corrections.Include(c => c.Exact).AsNoTracking()
                .Where(c => c.GatheringId == one.Gathering.Id).OrderBy(c => c.Id).ToListAsync(cancellation))
            .GroupBy(c => c.Field).ToDictionary(group => group.Key, group => BeforeOf(group.First()));
        return
        [
            .. CorrectedFields.All.Select(field => isShown || !field.IsOfExactPlace()
                ? new Stand(
                    field, Written(field, facts, firsts), RecordedFacts.AsTyped(field, facts.Text(field)), false)
                : new Stand(field, "", "", true)),
        ];
    }

    private static string Written(
        CorrectedField field, RecordedFacts facts, Dictionary<CorrectedField, string> firsts) => field switch
        {
            CorrectedField.Collectors => facts.Notes.CollectorsVerbatim,
            CorrectedField.Date => facts.Notes.DateVerbatim,
            CorrectedField.Coordinates => facts.Place.CoordinatesVerbatim,
            CorrectedField.Elevation => facts.Place.ElevationVerbatim,
            _ => RecordedFacts.AsTyped(field, firsts.GetValueOrDefault(field, facts.Text(field))),
        };

    private static Preview PreviewOf(Held one, FactChange change, DateOnly today, bool isShown)
    {
        var gathering = one.Gathering;
        if (!isShown)
        {
            return new(gathering.Id, gathering.Version, gathering.Label, [], [new(RefusalKind.NotAllowed,
                "Its place is protected. Correct it by itself, on the page of the sheet.")]);
        }

        var now = gathering.Facts(one.Exact);
        var read = change.Read(now, today);
        return new(
            gathering.Id, gathering.Version, gathering.Label,
            read.IsRefused
                ? []
                : [
                    .. read.Value.Select(fact => new Change(
                        fact.Field, RecordedFacts.ForPeople(fact.Field, now.Text(fact.Field)),
                        RecordedFacts.ForPeople(fact.Field, fact.Text))),
                ],
            read.Refusals);
    }

    private static string BeforeOf(Correction entry) => entry.Exact?.Before ?? entry.Before;

    private static string AfterOf(Correction entry) => entry.Exact?.After ?? entry.After;
}
