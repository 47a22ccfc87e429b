namespace Accession.Core.Gatherings;

/// <summary>What a text of collectors' numbers says: one number, several, a range, or that there is none.</summary>
/// <param name="Numbers">
/// The numbers in their order; of a range its ends, or its beginning alone where the end is open. Empty when the
/// gathering is without a number.
/// </param>
public sealed record CollectorNumbers(IReadOnlyList<CollectorNumber> Numbers)
{
    /// <summary>The statement that there is no number, without further words.</summary>
    public static CollectorNumbers None { get; } = new([]);

    /// <summary>
    /// Whether the text states that there is no number (s.n. in one of its spellings), or holds a prefix without one.
    /// </summary>
    public bool IsWithoutNumber => Numbers.Count == 0;

    /// <summary>
    /// Whether the numbers are the ends of a range: several gatherings under one label, or "between".
    /// </summary>
    public bool IsRange { get; init; }

    /// <summary>
    /// Whether the writer or a later hand doubted the number: a question mark, square brackets, (sic).
    /// </summary>
    public bool IsUncertain { get; init; }

    /// <summary>
    /// What stood before a missing number, such as the name in "Torvald s.n."; empty when there is a number.
    /// </summary>
    public string PrefixWithoutNumber { get; init; } = "";

    /// <summary>The only or first number; null when the gathering is without one.</summary>
    public CollectorNumber? First => Numbers.Count == 0 ? null : Numbers[0];

    /// <summary>The keys of all numbers, divided as lists are; "s.n." when there is none.</summary>
    public string Key => Numbers.Count switch
    {
        0 => "s.n.",
        1 => Numbers[0].Key,
        _ => string.Join(IsRange ? " - " : " & ", Numbers.Select(n => n.Key)),
    };
}
