namespace Accession.Core.Batches;

/// <summary>Something in a row that could not be read, or that a person should look at.</summary>
/// <param name="Heading">The heading of the column; empty when the whole row is meant.</param>
/// <param name="Text">The text to the letter.</param>
/// <param name="Reason">What is wrong and what to do, as a sentence.</param>
/// <param name="Blocks">Whether it keeps the row out of the register until somebody settles it.</param>
public sealed record RowFault(string Heading, string Text, string Reason, bool Blocks);
