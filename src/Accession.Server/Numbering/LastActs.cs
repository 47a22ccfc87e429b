using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Numbering;

/// <summary>
/// What a person last did at a bench, from the register: the same after the page was loaded again or left over night.
/// What was refused was no act and is not among it.
/// </summary>
internal static class LastActs
{
    private const int Shown = 10;
    private const int LookedThrough = 50;

    private sealed record Done(long ActId, BenchAnswer Answer);

    /// <summary>The last ten acts at the sheets of an accession, the latest first.</summary>
    public static async Task<IReadOnlyList<BenchAnswer>> OfAsync(
        AccessionDb db, long accessionId, string? actorId, CancellationToken cancellation)
    {
        List<Done> done =
        [
            .. await NumberedAsync(db, accessionId, actorId, cancellation),
            .. await ProvenAsync(db, accessionId, actorId, cancellation),
            .. await CountedAsync(db, accessionId, actorId, cancellation),
        ];
        return [.. done.OrderByDescending(one => one.ActId).Take(Shown).Select(one => one.Answer)];
    }

    private static async Task<IEnumerable<Done>> NumberedAsync(
        AccessionDb db, long accessionId, string? actorId, CancellationToken cancellation)
    {
        var sheets = await db.Specimens
            .Where(s => s.Gathering.AccessionId == accessionId && s.Act.ActorId == actorId
                && !s.Parts.Any(part => part.IsFromBefore))
            .OrderByDescending(s => s.ActId).Take(Shown)
            .Select(s => new
            {
                s.ActId,
                s.CatalogNumber,
                s.Gathering.Notes.RecordedBy,
                s.Gathering.Notes.RecordNumber,
                s.CurrentName,
                WasProvenAtOnce = s.Parts.Any(part => part.Steps.Any(
                    step => step.Step == Step.Numbered && step.ActId == s.ActId)),
                AwaitsScan = s.Parts.Any(part => !part.IsNumbered),
            })
            .ToListAsync(cancellation);
        return sheets.Select(s => new Done(s.ActId, BenchAnswer.OnRecord(
            s.WasProvenAtOnce ? BenchAnswer.Numbered : s.AwaitsScan ? BenchAnswer.ToScanBack : BenchAnswer.Issued,
            s.CatalogNumber, $"{s.RecordedBy} {s.RecordNumber}".Trim(), s.CurrentName)));
    }

    private static async Task<IEnumerable<Done>> ProvenAsync(
        AccessionDb db, long accessionId, string? actorId, CancellationToken cancellation)
    {
        var scans = await db.Specimens.Where(s => s.Gathering.AccessionId == accessionId)
            .SelectMany(s => s.Parts, (s, part) => new { Sheet = s, Part = part })
            .SelectMany(of => of.Part.Steps, (of, step) => new { of.Sheet, Step = step })
            .Where(scan => scan.Step.Step == Step.Numbered && scan.Step.ActId != scan.Sheet.ActId
                && scan.Step.Act.ActorId == actorId)
            .OrderByDescending(scan => scan.Step.ActId).Take(Shown)
            .Select(scan => new
            {
                scan.Step.ActId,
                scan.Sheet.CatalogNumber,
                scan.Sheet.Gathering.Notes.RecordedBy,
                scan.Sheet.Gathering.Notes.RecordNumber,
                scan.Sheet.CurrentName,
            })
            .ToListAsync(cancellation);
        return scans.Select(s => new Done(s.ActId, BenchAnswer.OnRecord(
            BenchAnswer.Proven, s.CatalogNumber, $"{s.RecordedBy} {s.RecordNumber}".Trim(), s.CurrentName)));
    }

    // Of such an act only its reason tells which gathering it counted; there are few of them.
    private static async Task<IEnumerable<Done>> CountedAsync(
        AccessionDb db, long accessionId, string? actorId, CancellationToken cancellation)
    {
        var acts = await db.Acts.Where(act => act.ActorId == actorId && act.What == ExpectAnotherSheet.What)
            .OrderByDescending(act => act.Id).Take(LookedThrough)
            .Select(act => new { act.Id, act.Reason }).ToListAsync(cancellation);
        var counted = acts
            .Select(act => (act.Id, GatheringId: ExpectAnotherSheet.GatheringOf(act.Reason)))
            .Where(act => act.GatheringId is not null).ToList();
        var ids = counted.Select(act => act.GatheringId!.Value).Distinct().ToList();
        if (ids.Count == 0)
        {
            return [];
        }

        var here = await db.Gatherings.Where(g => g.AccessionId == accessionId && ids.Contains(g.Id))
            .Select(g => new { g.Id, g.Notes.RecordedBy, g.Notes.RecordNumber })
            .ToDictionaryAsync(g => g.Id, g => $"{g.RecordedBy} {g.RecordNumber}".Trim(), cancellation);
        return counted.Where(act => here.ContainsKey(act.GatheringId!.Value))
            .Select(act => new Done(act.Id, BenchAnswer.Counted(here[act.GatheringId!.Value])));
    }
}
