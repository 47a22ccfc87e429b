using Accession.Tests;

namespace Accession.Core.Tests.Standards;

/// <summary>The published tables of terms, read as they are.</summary>
internal static class PublishedTerms
{
    /// <summary>The recommended terms of Darwin Core, version of 2026-05-26 (TDWG standard 450).</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Current() =>
        Table("standards", "dwc", "dwc-terms-current.csv");

    /// <summary>The notes of Darwin Core beside them.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Notes() =>
        Table("standards", "dwc", "dwc-terms-notes.csv");

    /// <summary>The terms of a core or extension of GBIF, by the beginning of its file name.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Gbif(string file) =>
        [
            .. Table("standards", "gbif", "extension-terms.csv")
                .Where(row => row["file"].StartsWith(file, StringComparison.Ordinal)),
        ];

    private static List<IReadOnlyDictionary<string, string>> Table(params string[] parts)
    {
        var text = File.ReadAllText(ReferenceData.Require(parts)).ReplaceLineEndings("\n");
        var records = ArchiveSecondReader.Split(text, ",", "\n", '"').ToList();
        return [.. records.Skip(1).Select(cells => records[0].Zip(cells).ToDictionary())];
    }
}
