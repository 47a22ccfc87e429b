using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Server.Mail;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// The letter that asks a collector about a row, written with the decision to ask; and which letter a row's question is
/// already out with.
/// </summary>
public sealed class AskCollector(AccessionDb db, WriteLetter write)
{
    /// <param name="Address">Where the collector is written to; remembered for the source.</param>
    /// <param name="Subject">What stands above the letter.</param>
    /// <param name="Text">The letter as the curator left the draft.</param>
    /// <param name="LettersSeen">How many letters about the row the curator saw when writing this one.</param>
    public sealed record Question(string? Address, string? Subject, string? Text, int LettersSeen);

    /// <summary>The letter of a question that is still open.</summary>
    public sealed record InForce(DateTime At, string By, bool IsRefused);

    /// <summary>The letter that the last decision about a row went out with; null when there was none.</summary>
    internal static Task<InForce?> LetterInForceAsync(
        AccessionDb db, BatchRow row, CancellationToken cancellation) =>
        db.Letters
            .Where(letter => letter.RowId == row.Id
                && letter.DecisionId == db.Decisions.Where(d => d.RowId == row.Id).Max(d => (long?)d.Id))
            .OrderByDescending(letter => letter.Ordinal)
            .Select(letter => new InForce(letter.Act.At, letter.Act.ActorName, letter.RefusedAt != null))
            .FirstOrDefaultAsync(cancellation);

    /// <summary>Why the collector is not asked now: somebody was faster, or the question is out already.</summary>
    internal async Task<Refusal?> WhyNotAgainAsync(
        BatchRow row, Question? question, CancellationToken cancellation)
    {
        if (row.Decision == RowDecision.Ask
            && await LetterInForceAsync(db, row, cancellation) is { IsRefused: false } asked)
        {
            return new(RefusalKind.Conflict,
                $"{asked.By} has asked about line {row.Line} already. No other letter was written.");
        }

        if (question is null)
        {
            return null;
        }

        var letters = await db.Letters.CountAsync(letter => letter.RowId == row.Id, cancellation);
        return letters == question.LettersSeen
            ? null
            : new(RefusalKind.Conflict,
                $"Somebody has written about line {row.Line} in the meantime. No other letter was written; look at it "
                + "first.");
    }

    /// <summary>
    /// Writes the letter in the transaction of the decision, and remembers the address for the source.
    /// </summary>
    /// <returns>What is wrong with the letter; empty when it was written.</returns>
    internal async Task<IReadOnlyList<Refusal>> WriteAsync(
        BatchRow row, DecisionEntry decision, Question question, Act act, CancellationToken cancellation)
    {
        var letter = await write.WriteAsync(
            new(question.Address, question.Subject, question.Text, row.Id, decision.Id, question.LettersSeen + 1),
            act, cancellation);
        if (letter.IsRefused)
        {
            return letter.Refusals;
        }

        var source = await db.Batches.Where(batch => batch.Id == row.BatchId).Select(batch => batch.Source)
            .SingleAsync(cancellation);
        source.AnswersAt(letter.Value.To);
        return [];
    }
}
