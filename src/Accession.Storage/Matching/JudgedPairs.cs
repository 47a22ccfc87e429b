using System.Runtime.CompilerServices;
using Accession.Core.Matching;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Matching;

/// <summary>
/// Pairs of gatherings in the register of which it is known what they are to each other: those that a curator kept as
/// duplicates, and, as the others, those that a curator told apart and those that meet in a key. They are compared as
/// rows are, so from the exact places; only counts of them may be shown.
/// </summary>
public sealed class JudgedPairs(AccessionDb db)
{
    private const int Slice = 500;
    private const int MostMet = 40;

    /// <summary>A pair.</summary>
    /// <param name="GatheringId">The later gathering.</param>
    /// <param name="OtherId">The earlier one.</param>
    /// <param name="Comparison">What it is by the present weights, and why.</param>
    /// <param name="IsDecided">Whether a curator has looked at just this pair.</param>
    public readonly record struct Pair(long GatheringId, long OtherId, Comparison Comparison, bool IsDecided);

    private sealed record Signed(long Id, long OtherId, byte[] Own, byte[] Other);

    /// <summary>Every gathering that a curator kept as a duplicate, with the first of its gathering.</summary>
    public async IAsyncEnumerable<Pair> SameAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var after = 0L;
        while (true)
        {
            var pairs = await db.Gatherings.Where(g => g.DuplicateOfId != null && g.Id > after)
                .Join(db.Set<GatheringSignature>(), g => g.Id, s => s.GatheringId, (g, s) => new { g, s.Signature })
                .Join(
                    db.Set<GatheringSignature>(), one => one.g.DuplicateOfId, s => s.GatheringId,
                    (one, s) => new { one.g.Id, one.g.DuplicateOfId, Own = one.Signature, Other = s.Signature })
                .OrderBy(pair => pair.Id).Take(Slice)
                .Select(pair => new Signed(pair.Id, pair.DuplicateOfId!.Value, pair.Own, pair.Other))
                .ToListAsync(cancellation);
            foreach (var pair in pairs)
            {
                yield return Compared(pair, isDecided: true);
            }

            if (pairs.Count < Slice)
            {
                yield break;
            }

            after = pairs[^1].Id;
        }
    }

    /// <summary>
    /// Other pairs: those told apart, and those that meet in a key. Keys are hashes, so some that lie evenly between
    /// the least and the greatest are as good as any, and the same each time.
    /// </summary>
    /// <param name="places">At how many places of the table of keys pairs are read.</param>
    /// <param name="cancellation">Gives up.</param>
    public async IAsyncEnumerable<Pair> OthersAsync(
        int places, [EnumeratorCancellation] CancellationToken cancellation)
    {
        HashSet<(long, long)> seen = [];
        foreach (var told in (await ToldApartAsync(cancellation)).Where(seen.Add).Chunk(Slice))
        {
            foreach (var pair in await ComparedAsync(told, isDecided: true, cancellation))
            {
                yield return pair;
            }
        }

        var keys = db.Set<GatheringKey>().Where(key => !key.IsIdentity);
        var least = await keys.MinAsync(key => (long?)key.Key, cancellation) ?? 0;
        var most = await keys.MaxAsync(key => (long?)key.Key, cancellation) ?? 0;
        for (var place = 0; place < places; place++)
        {
            var from = (long)(least + (((Int128)most - least) * place / places));
            var read = await keys.Where(key => key.Key >= from).OrderBy(key => key.Key).Take(MostMet)
                .Select(key => new { key.Key, key.GatheringId }).ToListAsync(cancellation);
            var pairs = read.GroupBy(one => one.Key, one => one.GatheringId)
                .SelectMany(Paired).Where(seen.Add).ToList();
            foreach (var pair in await ComparedAsync(pairs, isDecided: false, cancellation))
            {
                yield return pair;
            }
        }
    }

    // Those whose rows are gatherings by now.
    private async Task<IEnumerable<(long Id, long OtherId)>> ToldApartAsync(CancellationToken cancellation) =>
        (await db.ToldApart.Where(told => told.TakenBackActId == null)
            .Select(told => new
            {
                One = db.Rows.Where(row => row.Id == told.RowId).Select(row => row.GatheringId).FirstOrDefault(),
                Other = told.GatheringId
                    ?? db.Rows.Where(row => row.Id == told.OtherRowId).Select(row => row.GatheringId).FirstOrDefault(),
            })
            .Where(pair => pair.One != null && pair.Other != null && pair.One != pair.Other)
            .ToListAsync(cancellation))
        .Select(pair => (Math.Max(pair.One!.Value, pair.Other!.Value), Math.Min(pair.One.Value, pair.Other.Value)));

    private static IEnumerable<(long Id, long OtherId)> Paired(IEnumerable<long> gatherings)
    {
        var ordered = gatherings.Distinct().Order().ToList();
        return ordered.SelectMany((id, at) => ordered.Take(at).Select(other => (id, other)));
    }

    // Those of one gathering are no others.
    private async Task<IEnumerable<Pair>> ComparedAsync(
        IReadOnlyList<(long Id, long OtherId)> pairs, bool isDecided, CancellationToken cancellation)
    {
        var ids = pairs.SelectMany(pair => new[] { pair.Id, pair.OtherId }).Distinct().ToList();
        var signed = await db.Gatherings.Where(g => ids.Contains(g.Id))
            .Join(
                db.Set<GatheringSignature>(), g => g.Id, s => s.GatheringId,
                (g, s) => new { g.Id, First = g.DuplicateOfId ?? g.Id, s.Signature })
            .ToDictionaryAsync(one => one.Id, cancellation);
        return pairs
            .Where(pair => signed.ContainsKey(pair.Id) && signed.ContainsKey(pair.OtherId)
                && signed[pair.Id].First != signed[pair.OtherId].First)
            .Select(pair => Compared(
                new(pair.Id, pair.OtherId, signed[pair.Id].Signature, signed[pair.OtherId].Signature), isDecided));
    }

    private static Pair Compared(Signed pair, bool isDecided) => new(
        pair.Id, pair.OtherId,
        Comparison.Between(Signature.FromBytes(pair.Own), Signature.FromBytes(pair.Other)), isDecided);
}
