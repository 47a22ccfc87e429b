namespace Accession.Core.People;

/// <summary>What one person on record gives up and another gets: two are said to be one, or one to be two.</summary>
/// <param name="Spellings">The spellings, to the letter.</param>
/// <param name="AccountId">The account; null where none goes over.</param>
public sealed record HandedOver(IReadOnlyList<string> Spellings, string? AccountId);
