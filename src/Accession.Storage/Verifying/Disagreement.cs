namespace Accession.Storage.Verifying;

/// <summary>A place in the register where what is stored is not what the entries say.</summary>
/// <param name="Check">What was checked.</param>
/// <param name="Subject">Of which thing.</param>
/// <param name="Stored">What is stored.</param>
/// <param name="Entries">What the entries say.</param>
public sealed record Disagreement(string Check, string Subject, string Stored, string Entries);
