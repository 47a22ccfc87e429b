namespace Accession.Core.Numbers;

/// <summary>
/// What came of a series learning the highest number seen on paper: as it was opened, or as sheets were taken over.
/// </summary>
/// <param name="Entry">The entry in its history.</param>
/// <param name="Rolls">
/// The rolls that the numbers became which the register does not know and which may be on paper, the lowest first.
/// </param>
/// <param name="NoLongerReady">What lay ready and stands on those rolls now.</param>
/// <param name="Skipped">
/// How many numbers of lots the counter steps over, for lots have no rolls; 0 for a series of sheets.
/// </param>
public sealed record OpenedSeries(
    SeriesEntry Entry,
    IReadOnlyList<Roll> Rolls,
    IReadOnlyList<ReadyNumber> NoLongerReady,
    long Skipped)
{
    /// <summary>How many numbers the rolls hold.</summary>
    public long OnRolls => Rolls.Sum(roll => roll.Last - roll.First + 1);
}
