namespace Accession.Server.Shared;

/// <summary>
/// The addresses of sheets, kept for decades: that of a catalog number, and where several sheets bear it, that of each.
/// </summary>
public static class SpecimenAddress
{
    private const string Slash = "%2F";

    /// <summary>The address of a number: its sheet, or the choice among the sheets that bear it.</summary>
    public static string Of(string catalogNumber) => $"/specimen/{Uri.EscapeDataString(catalogNumber)}";

    /// <summary>The address of one sheet.</summary>
    /// <param name="catalogNumber">The number it bears.</param>
    /// <param name="repeat">Which of the sheets that bear it: 0 for the first.</param>
    /// <param name="isRepeated">Whether another sheet bears it too.</param>
    public static string Of(string catalogNumber, int repeat, bool isRepeated) => isRepeated || repeat > 0
        ? $"{Of(catalogNumber)}/sheet/{repeat + 1}"
        : Of(catalogNumber);

    /// <summary>The number in an address; a slash in it comes as it was sent, so that it parts nothing.</summary>
    public static string NumberIn(string segment) => segment.Replace(Slash, "/", StringComparison.OrdinalIgnoreCase);
}
