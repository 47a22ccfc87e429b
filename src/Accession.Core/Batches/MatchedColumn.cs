namespace Accession.Core.Batches;

/// <summary>One column of a sender's list and what it was taken to mean.</summary>
/// <param name="Column">Its place, from 0.</param>
/// <param name="Heading">Its heading, to the letter.</param>
/// <param name="Field">What it means; null when nothing is known of it. Its text is kept either way.</param>
/// <param name="Reason">Why.</param>
/// <param name="Unit">The unit of length that the heading names; null when it names none.</param>
/// <param name="Note">What a person should look at, as a sentence; null when nothing.</param>
public sealed record MatchedColumn(
    int Column,
    string Heading,
    ListField? Field,
    MatchReason Reason,
    HeadingUnit? Unit,
    string? Note)
{
    /// <summary>The reason in a few words, to stand beside the column.</summary>
    public string Why => Reason switch
    {
        MatchReason.DarwinCoreName => "Darwin Core name",
        MatchReason.UsualSynonym => "usual synonym",
        MatchReason.AsLastTime => "as last time",
        MatchReason.ChosenByPerson => "chosen by hand",
        _ => "not matched: kept to the letter",
    };
}
