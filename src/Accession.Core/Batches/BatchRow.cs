using System.Linq.Expressions;
using Accession.Core.Matching;
using Accession.Core.Outcomes;

namespace Accession.Core.Batches;

/// <summary>
/// One row of a batch, to the letter. It is known by its content within its source and by its place among equal rows,
/// never by its line. Rows are permanent: a specimen points to the row it came from.
/// </summary>
public sealed class BatchRow
{
    private BatchRow()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The batch it belongs to.</summary>
    public long BatchId { get; private set; }

    /// <summary>The list it first stood in; its cells follow that list's headings.</summary>
    public long FirstListId { get; private set; }

    /// <summary>The latest list it stood in.</summary>
    public long LastListId { get; private set; }

    /// <summary>Its line in the latest list, from 1 for the file's first line.</summary>
    public int Line { get; private set; }

    /// <summary>What identifies its content: see <see cref="RowIdentity"/>.</summary>
    public string Identity { get; private set; } = "";

    /// <summary>Its place among equal rows of the list, from 1.</summary>
    public int Occurrence { get; private set; }

    /// <summary>
    /// Collector and number folded into one text, by which a corrected row finds the row it corrects.
    /// </summary>
    public string PairKey { get; private set; } = "";

    /// <summary>The cells to the letter, in the order of its first list's headings, as a JSON list.</summary>
    public string Cells { get; private set; } = "[]";

    /// <summary>
    /// The number that its sheet bears and keeps, to the letter; empty where it has none, or gets it here.
    /// </summary>
    public string CatalogNumber { get; private set; } = "";

    /// <summary>How many sheets it stands for; at least 1.</summary>
    public int Sheets { get; private set; }

    /// <summary>How many of its problems keep it from being taken into the register.</summary>
    public int OpenProblems { get; private set; }

    /// <summary>The act by which a curator took it as written in spite of its problems; null when nobody did.</summary>
    public long? TakenAsWrittenActId { get; private set; }

    /// <summary>The corrected row that stands in its place; null while it stands itself.</summary>
    public long? SupersededById { get; private set; }

    /// <summary>The list from which it was missing; null while it stands.</summary>
    public long? WithdrawnInListId { get; private set; }

    /// <summary>
    /// The gathering it became, or the one under which its sheets are counted because they do not stay; null until it
    /// is taken into the register.
    /// </summary>
    public long? GatheringId { get; private set; }

    /// <summary>
    /// Why it lies outside, or may lie outside, of the permits of its batch; null when it does not. A warning only.
    /// </summary>
    public string? PermitWarning { get; private set; }

    /// <summary>Rows that stand in the list and are not in the register yet.</summary>
    public static Expression<Func<BatchRow, bool>> Waiting { get; } =
        row => row.SupersededById == null && row.WithdrawnInListId == null && row.GatheringId == null;

    /// <summary>How many are so much like it that they were not compared singly; mostly 0.</summary>
    public int AlikeNotCompared { get; private set; }

    /// <summary>
    /// What it was found to be, against the register and the rows before it; null until it was looked for.
    /// </summary>
    public FindingKind? Finding { get; private set; }

    /// <summary>What a curator decided about its finding; null while nobody did. Computed from the entries.</summary>
    public RowDecision? Decision { get; private set; }

    /// <summary>
    /// Decides about its finding, or decides anew; the entry beside it tells what was decided before.
    /// </summary>
    /// <param name="decision">What becomes of its sheets.</param>
    /// <param name="with">The gathering, or the row, that it was found to belong with.</param>
    /// <param name="act">The act: who and when, and why where the sheets do not stay.</param>
    /// <returns>The entry to keep, or why nothing was decided.</returns>
    public Outcome<DecisionEntry> Decide(RowDecision decision, FoundWith with, Act act)
    {
        if (WhyNotNow() is { } refusal)
        {
            return refusal;
        }

        if (decision is RowDecision.Return or RowDecision.Discard && act.Reason is null)
        {
            return new Refusal(RefusalKind.Invalid, decision == RowDecision.Return
                ? "Write why the sheets go back: the sender will ask."
                : "Write why the sheets are discarded: nobody can ask them later.");
        }

        Decision = decision;
        return DecisionEntry.Of(this, decision, with, act);
    }

    /// <summary>Takes the decision back, so that the finding is open again.</summary>
    /// <param name="act">The act: who and when.</param>
    public Outcome<DecisionEntry> Reopen(Act act)
    {
        if (WhyNotNow() is { } refusal)
        {
            return refusal;
        }

        if (Decision is null)
        {
            return new Refusal(RefusalKind.Conflict, $"Nothing was decided about line {Line}.");
        }

        Decision = null;
        return DecisionEntry.Of(this, null, default, act);
    }

    /// <summary>Gives its place to the row that corrects it; it stays on record.</summary>
    /// <param name="correctedId">The key of that row.</param>
    /// <returns>Why it cannot be corrected; null when it was.</returns>
    public Refusal? CorrectBy(long correctedId)
    {
        if (WhyNotNow() is { } refusal)
        {
            return refusal;
        }

        SupersededById = correctedId;
        return null;
    }

    /// <summary>Takes it out of a list that is typed here; it stays on record.</summary>
    /// <returns>Why it cannot be taken out; null when it was.</returns>
    public Refusal? TakeOut()
    {
        if (WhyNotNow() is { } refusal)
        {
            return refusal;
        }

        WithdrawnInListId = LastListId;
        return null;
    }

    private Refusal? WhyNotNow() => GatheringId is not null
        ? new(RefusalKind.Conflict, $"Line {Line} is in the register already; its record is corrected there.")
        : SupersededById is not null || WithdrawnInListId is not null
            ? new(RefusalKind.Conflict, $"Line {Line} stands no longer in the list.")
            : null;
}
