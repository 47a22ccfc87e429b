namespace Accession.Core.Outcomes;

/// <summary>
/// Says where the reading of a text stopped, and why, in a sentence for a curator.
/// </summary>
/// <param name="Column">
/// The position of the character at which reading stopped: 1 for the first, and one more than the length of the text
/// when something is missing at its end.
/// </param>
/// <param name="Reason">
/// What is wrong and, where it can be guessed, what to write instead. A sentence, never a code.
/// </param>
public sealed record Unreadable(int Column, string Reason);
