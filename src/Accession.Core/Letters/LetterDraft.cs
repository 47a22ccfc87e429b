namespace Accession.Core.Letters;

/// <summary>What somebody wants to write, and what about.</summary>
/// <param name="To">The address as written.</param>
/// <param name="Subject">What stands above the letter, one line.</param>
/// <param name="Text">The letter, plain text.</param>
/// <param name="RowId">The row of a list that it asks about; null when it is about none.</param>
/// <param name="DecisionId">The decision that it goes out with; null when there is none.</param>
/// <param name="Ordinal">Which letter about that row it is, from 1.</param>
public sealed record LetterDraft(
    string? To, string? Subject, string? Text, long? RowId = null, long? DecisionId = null, int Ordinal = 1);
