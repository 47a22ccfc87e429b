using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>
/// The parts of one collector's number, such as <c>KB-1204a</c>. Case and separators stay as written; two spellings of
/// one number are equal all the same, because equality compares the <see cref="Key"/>.
/// </summary>
/// <param name="Prefix">What precedes the digits: a series, a project code or words; often empty.</param>
/// <param name="Number">
/// The running number or the whole of a year series, as digits and separators, such as 1204 or 2031-014. Leading
/// zeros and thousands marks are taken off. Never empty.
/// </param>
/// <param name="Suffix">What follows the number, without a separator: a, bis, ½, .1, (13); often empty.</param>
public readonly record struct CollectorNumber(string Prefix, string Number, string Suffix)
{
    /// <summary>
    /// Whether the prefix is a person's name or the label of a field ("Torvald 4471") instead of a series. Such a
    /// prefix says nothing about the number and takes no part in the key.
    /// </summary>
    public bool IsPrefixWords { get; init; }

    /// <summary>
    /// The form for comparing: prefix, each run of digits without leading zeros, and suffix, in capitals, divided by
    /// bars. <c>MKT-2031-014</c> becomes <c>MKT|2031|14|</c> and <c>1234 bis</c> becomes <c>|1234|BIS</c>.
    /// </summary>
    public string Key => NumberKey.Of(this);

    /// <summary>Whether the digits are alone: neither prefix, nor suffix, nor separator.</summary>
    public bool IsPlain =>
        Prefix.Length == 0 && Suffix.Length == 0 && !Number.AsSpan().ContainsAnyExceptInRange('0', '9');

    /// <summary>
    /// Reads numbers as written. Takes time in proportion to the length of the text and never throws.
    /// </summary>
    /// <param name="verbatim">The text as written; null counts as blank.</param>
    /// <returns>
    /// One or several numbers, or the statement that there is none; a question where the text allows two meanings.
    /// Unreadable for a blank text, which states nothing, and for what a spreadsheet has turned into a date or a power
    /// of ten, because the number is lost there.
    /// </returns>
    public static Reading<CollectorNumbers> Read(string? verbatim) => CollectorNumberReader.Read(verbatim ?? "");

    /// <summary>Whether both are the same number in different spellings.</summary>
    /// <param name="other">The number to compare with.</param>
    public bool Equals(CollectorNumber other) =>
        (Number == other.Number && Prefix == other.Prefix && Suffix == other.Suffix) || Key == other.Key;

    /// <summary>A hash that agrees with <see cref="Equals(CollectorNumber)"/>.</summary>
    public override int GetHashCode() => Key.GetHashCode(StringComparison.Ordinal);

    /// <summary>The number as it may stand on a label: <c>KB 1204 a</c>.</summary>
    public override string ToString()
    {
        var head = Prefix.Length == 0 ? Number : $"{Prefix} {Number}";
        return Suffix.Length == 0 ? head : $"{head} {Suffix}";
    }
}
