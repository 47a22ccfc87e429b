using System.Linq.Expressions;
using Accession.Core.Batches;

namespace Accession.Server.Receiving;

/// <summary>Which rows of a batch stand, and which of those may be taken into the register.</summary>
internal static class SettledRows
{
    /// <summary>Rows that no corrected row stands in for and that are still in the list.</summary>
    public static Expression<Func<BatchRow, bool>> Standing { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null;

    /// <summary>
    /// Standing rows without an open problem, or taken as written in spite of it, and not yet taken in.
    /// </summary>
    public static Expression<Func<BatchRow, bool>> ToTakeIn { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null
            && (row.OpenProblems == 0 || row.TakenAsWrittenActId != null);

    /// <summary>Standing rows that wait for somebody to settle a problem.</summary>
    public static Expression<Func<BatchRow, bool>> Open { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null
            && row.OpenProblems > 0 && row.TakenAsWrittenActId == null;
}
