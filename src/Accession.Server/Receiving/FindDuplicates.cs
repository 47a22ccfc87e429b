using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Finds what each row of a batch is: against the register, and against the rows before it. Rows are staged under their
/// keys and joined once; what a curator decided stays, and what was told apart is never found again.
/// </summary>
public sealed class FindDuplicates(
    AccessionDb db, MatchTable table, SignGatherings signatures, ListReaders listReaders, PersonsInFinding persons)
{
    // So many rows are joined at once, and so many findings written in one transaction.
    private const int Joined = 10_000;
    private const int Slice = 1000;
    private const int MostNamed = 20;

    /// <summary>Says how far it is.</summary>
    public delegate Task Report(long done, long total, CancellationToken cancellation);

    /// <summary>Reads every row that is not in the register yet, and finds what it is.</summary>
    public async Task StageAndFindAsync(long batchId, Report report, CancellationToken cancellation)
    {
        await signatures.CompleteAsync(report, cancellation);
        await FindAnewAsync(batchId, report, cancellation);
    }

    /// <summary>The same against those gatherings that have what they are compared by already.</summary>
    public async Task FindAnewAsync(long batchId, Report report, CancellationToken cancellation)
    {
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Id == batchId, cancellation);
        if (batch.CarriesNumbers)
        {
            await CountAsNewAsync(batchId, cancellation);
            return;
        }

        var total = await Waiting(batchId).CountAsync(cancellation) * 2;
        await using var room = await db.Kind.MakeRoomAsync(db, cancellation);
        await table.ClearAsync(batchId, cancellation);
        var done = await new StagedRows(db, table, listReaders.OfAll(batch)).StageAsync(
            batch, Waiting(batchId), (staged, token) => report(staged, total, token), cancellation);
        await table.StagedAsync(cancellation);
        await FindAsync(batchId, Lines.All, (found, _, token) => report(done + found, total, token), cancellation);
    }

    // Each sheet that is taken over becomes a gathering of its own, whatever it is like: equal ones are joined later.
    private async Task CountAsNewAsync(long batchId, CancellationToken cancellation)
    {
        await table.ClearAsync(batchId, cancellation);
        await db.FoundMembers.Where(one => db.Rows.Any(row => row.Id == one.RowId && row.BatchId == batchId))
            .ExecuteDeleteAsync(cancellation);
        await db.Rows.Where(BatchRow.Waiting).Where(row => row.BatchId == batchId && row.Finding != FindingKind.New)
            .ExecuteUpdateAsync(row => row.SetProperty(r => r.Finding, FindingKind.New), cancellation);
    }

    /// <summary>
    /// Finds again what the staged rows of these lines are: the register, or what is told apart, changed.
    /// </summary>
    public async Task FindAsync(long batchId, Lines lines, Report report, CancellationToken cancellation)
    {
        var known = await persons.KnownAsync(cancellation);
        // What is prepared belongs to the connection.
        await db.Database.OpenConnectionAsync(cancellation);
        try
        {
            await table.PrepareAsync(batchId, lines, cancellation);
            var total = await Within(batchId, lines).CountAsync(cancellation);
            var (first, done) = (lines.First, 0);
            while (true)
            {
                var part = await Within(batchId, lines with { First = first }).OrderBy(row => row.Line)
                    .Select(row => row.Line).Take(Joined).ToListAsync(cancellation);
                if (part.Count == 0)
                {
                    return;
                }

                var found = await FoundAsync(batchId, new Lines(first, part[^1]), known, cancellation);
                foreach (var slice in found.Chunk(Slice))
                {
                    await KeepAsync(batchId, slice, cancellation);
                    done += slice.Length;
                    await report(done, total, cancellation);
                }

                first = part[^1] + 1;
            }
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    private IQueryable<BatchRow> Waiting(long batchId) =>
        db.Rows.AsNoTracking().Where(BatchRow.Waiting).Where(row => row.BatchId == batchId);

    private IQueryable<BatchRow> Within(long batchId, Lines lines) =>
        Waiting(batchId).Where(row => row.Line >= lines.First && row.Line <= lines.Last);

    // Nothing is written meanwhile, and of all that was compared only what rows were found with is held.
    private async Task<List<FoundRow>> FoundAsync(
        long batchId, Lines lines, KnownPersons known, CancellationToken cancellation)
    {
        var apart = await ApartAsync(Within(batchId, lines), cancellation);
        List<FoundRow> found = [];
        await foreach (var row in table.JoinAsync(batchId, lines, cancellation))
        {
            found.Add(Found(row, apart, known));
        }

        return found;
    }

    private async Task KeepAsync(long batchId, FoundRow[] found, CancellationToken cancellation)
    {
        await using var own = db.Database.CurrentTransaction is null
            ? await db.Database.BeginTransactionAsync(cancellation)
            : null;
        var ids = found.Select(row => row.RowId).ToList();
        var open = (await Waiting(batchId)
            .Where(row => ids.Contains(row.Id) && (row.Decision == null || row.Decision == RowDecision.Ask))
            .Select(row => row.Id).ToListAsync(cancellation)).ToHashSet();
        await table.FindAsync([.. found.Where(row => open.Contains(row.RowId))], cancellation);
        if (own is not null)
        {
            await own.CommitAsync(cancellation);
        }
    }

    private static FoundRow Found(Met row, HashSet<(long Row, FoundWith With)> apart, KnownPersons known)
    {
        // The join has no order, and those equally close are named in the order of their keys each time.
        row.Others.Sort((one, other) => (one.GatheringId ?? long.MaxValue, one.RowId ?? 0)
            .CompareTo((other.GatheringId ?? long.MaxValue, other.RowId ?? 0)));
        var finding = FindingOf(row, apart, known);
        return new(
            row.RowId, finding.Kind, finding.AlikeNotCompared,
            [
                .. finding.Members.Take(MostNamed).Select(member => FoundMember.Of(
                    row.RowId, With(row.Others[(int)member.Id]), member.Comparison.Evidence)),
            ]);
    }

    private static Finding FindingOf(Met row, HashSet<(long Row, FoundWith With)> apart, KnownPersons known)
    {
        List<Candidate> candidates = [];
        foreach (var (index, other) in row.Others.Index())
        {
            if (!apart.Contains((row.RowId, With(other))))
            {
                var comparison = Comparison.Between(row.Signature, other.Signature, known);
                candidates.Add(new(index, other.IsSameRecord ? comparison.AsRepeat() : comparison));
            }
        }

        return Findings.Of(candidates, row.AlikeNotCompared);
    }

    private static FoundWith With(MetOther other) => new(other.GatheringId, other.RowId);

    // Told apart in either order, and also when the other row is a gathering by now. Of most batches nothing was.
    private async Task<HashSet<(long Row, FoundWith With)>> ApartAsync(
        IQueryable<BatchRow> rows, CancellationToken cancellation)
    {
        var concerned = await rows
            .Where(row => db.ToldApart.Any(pair => pair.RowId == row.Id)
                || db.ToldApart.Any(pair => pair.OtherRowId == row.Id))
            .Select(row => row.Id).ToListAsync(cancellation);
        if (concerned.Count == 0)
        {
            return [];
        }

        var told = await db.ToldApart
            .Where(pair => pair.TakenBackActId == null
                && (concerned.Contains(pair.RowId)
                    || (pair.OtherRowId != null && concerned.Contains(pair.OtherRowId.Value))))
            .Select(pair => new
            {
                pair.RowId,
                pair.GatheringId,
                pair.OtherRowId,
                Became = db.Rows.Where(row => row.Id == pair.RowId).Select(row => row.GatheringId).FirstOrDefault(),
                OtherBecame = db.Rows.Where(row => row.Id == pair.OtherRowId).Select(row => row.GatheringId)
                    .FirstOrDefault(),
            })
            .ToListAsync(cancellation);
        HashSet<(long, FoundWith)> apart = [];
        foreach (var pair in told)
        {
            apart.Add((pair.RowId, new(pair.GatheringId ?? pair.OtherBecame, null)));
            if (pair.OtherRowId is { } other)
            {
                apart.Add((pair.RowId, new(null, other)));
                apart.Add((other, new(null, pair.RowId)));
                apart.Add((other, new(pair.Became, null)));
            }
        }

        return apart;
    }
}
