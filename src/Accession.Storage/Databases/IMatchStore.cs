using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Storage.Matching;

namespace Accession.Storage.Databases;

/// <summary>The bulk path of matching: keys, signatures and findings, a slice at a time, in one transaction.</summary>
public interface IMatchStore
{
    /// <summary>
    /// Stages what is compared of rows of a batch, with the gatherings whose very records they are. Their keys follow.
    /// </summary>
    Task StageAsync(
        AccessionDb db, IReadOnlyList<MatchTable.Entry> rows, IReadOnlyList<(long RowId, long GatheringId)> records,
        CancellationToken cancellation);

    /// <summary>Stages keys of rows; many are stored soonest in the order of the keys.</summary>
    Task StageKeysAsync(
        AccessionDb db, long batchId, IReadOnlyList<MatchTable.StagedKey> keys, CancellationToken cancellation);

    /// <summary>Keeps gatherings, new ones or again, and marks them as signed by this version.</summary>
    Task KeepAsync(AccessionDb db, IReadOnlyList<MatchTable.Entry> gatherings, CancellationToken cancellation);

    /// <summary>Writes what rows were found to be, in place of what they were found to be before.</summary>
    Task FindAsync(AccessionDb db, IReadOnlyList<FoundRow> rows, CancellationToken cancellation);
}

/// <summary>What a row was found to be.</summary>
/// <param name="RowId">The row.</param>
/// <param name="Kind">What it is.</param>
/// <param name="AlikeNotCompared">How many are like it beside those that were compared.</param>
/// <param name="Members">Those it was found with, the closest first.</param>
public sealed record FoundRow(
    long RowId, FindingKind Kind, int AlikeNotCompared, IReadOnlyList<FoundMember> Members);
