using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Core.People;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Matching;

/// <summary>What persons on record have to do with the finding of duplicates.</summary>
public sealed class PersonsInFinding(AccessionDb db)
{
    /// <summary>The kind of work that finds anew what the rows of a batch are; its subject is the batch.</summary>
    public const string Work = "find duplicates";

    /// <summary>What curators said of persons, as it is now.</summary>
    public async Task<KnownPersons> KnownAsync(CancellationToken cancellation) => new(
        await db.PersonSpellings.Where(s => s.EndedActId == null)
            .Join(db.Persons, s => s.PersonId, p => p.Id, (s, p) => new
            {
                s.Written,
                p.Id,
                p.FirstYear,
                p.LastYear,
                p.Habit,
            })
            .Select(one => new KnownSpelling(
                one.Written, one.Id, new CollectingYears(one.FirstYear, one.LastYear), one.Habit))
            .ToListAsync(cancellation));

    /// <summary>
    /// The batches that have rows waiting whose collector is near to one of these spellings: what is said of a person
    /// may change what they are found to be.
    /// </summary>
    /// <param name="written">The spellings.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<IReadOnlyList<long>> BatchesAsync(
        IReadOnlyCollection<string> written, CancellationToken cancellation)
    {
        var names = new KnownPersons(written.Select(one => new KnownSpelling(one, 0, CollectingYears.Any, null)));
        var batches = await db.Rows.Where(BatchRow.Waiting).Where(row => row.Finding != null)
            .Select(row => row.BatchId).Distinct().ToListAsync(cancellation);
        List<long> concerned = [];
        foreach (var batch in batches)
        {
            // One row is enough, so that most of a batch of somebody's is never read.
            var signatures = db.Set<RowSignature>()
                .Where(s => db.Rows.Where(BatchRow.Waiting).Any(row => row.Id == s.RowId && row.BatchId == batch))
                .Select(s => s.Signature).AsAsyncEnumerable();
            if (await AnyAsync(signatures, names, cancellation))
            {
                concerned.Add(batch);
            }
        }

        return concerned;
    }

    private static async Task<bool> AnyAsync(
        IAsyncEnumerable<byte[]> signatures, KnownPersons names, CancellationToken cancellation)
    {
        await foreach (var bytes in signatures.WithCancellation(cancellation))
        {
            // What an earlier version of the program staged is found anew before it is compared.
            if (bytes.Length != Signature.Size || bytes[0] != Signature.CurrentVersion
                || names.MayConcern(Signature.FromBytes(bytes)))
            {
                return true;
            }
        }

        return false;
    }
}
