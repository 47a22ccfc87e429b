namespace Accession.Core.Specimens;

/// <summary>
/// The identifier under which a record was published before, <c>dwc:occurrenceID</c> (Darwin Core quick reference
/// guide: it should be globally unique or, failing that, as unique as can be). Others cite it, so a sheet that is taken
/// over keeps it to the letter.
/// </summary>
public static class LastingIdentifier
{
    /// <summary>The most characters an identifier can have.</summary>
    public const int Longest = 200;

    /// <summary>The identifier as written, without the blanks around it; empty when it cannot be kept.</summary>
    /// <param name="written">What stands in the list.</param>
    public static string Of(string written)
    {
        var identifier = written.Trim();
        var isKept = identifier.Length <= Longest && identifier.Any(char.IsLetterOrDigit)
            && !identifier.Any(one => char.IsWhiteSpace(one) || BorneNumber.IsHidden(one));
        return isKept ? identifier : "";
    }

    /// <summary>A new one, that nothing else in the world has: a UUID as a URN (RFC 9562).</summary>
    public static string New() => $"urn:uuid:{Guid.NewGuid()}";
}
