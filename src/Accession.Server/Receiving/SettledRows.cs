using System.Linq.Expressions;
using Accession.Core.Batches;
using Accession.Core.Matching;

namespace Accession.Server.Receiving;

/// <summary>
/// Which rows of a batch stand, and for what those wait that are not in the register (<see cref="BatchRow.Waiting"/>).
/// </summary>
internal static class SettledRows
{
    /// <summary>Rows that no corrected row stands in for and that are still in the list.</summary>
    public static Expression<Func<BatchRow, bool>> Standing { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null;

    /// <summary>
    /// Waiting rows without an open problem, or taken as written in spite of it, that are new or were decided about.
    /// </summary>
    public static Expression<Func<BatchRow, bool>> ToTakeIn { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null
            && (row.OpenProblems == 0 || row.TakenAsWrittenActId != null)
            && ((row.Decision == null && row.Finding == FindingKind.New)
                || (row.Decision != null && row.Decision != RowDecision.Ask));

    /// <summary>Waiting rows with a problem that somebody has to settle.</summary>
    public static Expression<Func<BatchRow, bool>> Open { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null
            && row.OpenProblems > 0 && row.TakenAsWrittenActId == null;

    /// <summary>Waiting rows that were found to belong with something, and that nobody decided about.</summary>
    public static Expression<Func<BatchRow, bool>> Undecided { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null
            && row.Finding != null && row.Finding != FindingKind.New && row.Decision == null;

    /// <summary>Waiting rows that were found to belong with something, and about which nothing is final.</summary>
    public static Expression<Func<BatchRow, bool>> Found { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null
            && row.Finding != null && row.Finding != FindingKind.New
            && (row.Decision == null || row.Decision == RowDecision.Ask);

    /// <summary>Rows that stand and lie outside, or may lie outside, of the permits of the batch.</summary>
    public static Expression<Func<BatchRow, bool>> OutsidePermits { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.PermitWarning != null;

    /// <summary>Waiting rows whose collector is being asked.</summary>
    public static Expression<Func<BatchRow, bool>> Asked { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null
            && row.Decision == RowDecision.Ask;
}
