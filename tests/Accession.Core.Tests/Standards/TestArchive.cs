using System.IO.Compression;
using System.Text;
using Accession.Core.Standards.DarwinCore;
using Accession.Core.Standards.Eml;

namespace Accession.Core.Tests.Standards;

/// <summary>An archive of invented specimens, and of invented texts that wish it harm.</summary>
internal static class TestArchive
{
    /// <summary>Texts that break careless writers and readers.</summary>
    public static IReadOnlyList<string> HostileTexts { get; } =
    [
        "<b>bold</b> & \"quoted\" 'twice' ]]> <!-- -- -->",
        "tab\there, break\nhere, both\r\nhere",
        "control \u0001 \u0000 \u001F \u0085 \u2028 here",
        "emoji 🌿👩🏽‍🌾 and beyond 𐐷",
        "\u202Eדגנים right to left العربية",
        "noncharacters \uFFFE \uFFFF here",
        "half a pair " + (char)0xD83C + " here",
        "\"", "\"\"", "a\"b", "\"begins", "ends\"", "\\", "\\t\\n", "=1+1", "%00", "${x}", "\uFEFFmark",
    ];

    public static DatasetDescription Description { get; } = new()
    {
        Identifier = new("6f1c1d6e-0d3e-4d57-9a55-0000000000d1"),
        Version = 3,
        Title = "Vascular plants of an invented field station",
        Abstract = "Sheets that never were.\n\nThey exist to test the export.",
        Licence = Licence.CcBy,
        Creator = new("Invented Station", "curator@example.org", "Ida", "Example", "Curator"),
        Contact = new("Invented Station", "curator@example.org"),
        Publisher = new("Invented Station"),
        PublishedOn = new(2026, 3, 1),
        WrittenAt = new(2026, 3, 1, 9, 30, 0, DateTimeKind.Utc),
        Geography = new("Eastern Oregon", new(-121.5m, -116.5m, 42, 46)),
        CollectedFrom = new(1931, 5, 2),
        CollectedTo = new(2025, 9, 14),
        TaxonomicCoverage = "Ferns and seed plants",
        Taxa = ["Tracheophyta"],
        CollectionName = "Invented Herbarium",
        CollectionIdentifier = "https://example.org/collection/demo-h",
        HomePage = new("https://herbarium.example.org/dataset/oregon?x=1&y=ü"),
    };

    /// <summary>A text for a row and a column: harmless first, then each hostile one everywhere.</summary>
    public static string Text(int row, ArchiveColumn column) => column.Value == PublishedValue.OccurrenceId
        ? $"urn:demo:{row}"
        : row == 0 ? $"{column.Heading} of {row}" : HostileTexts[row - 1];

    /// <summary>How many specimens there are.</summary>
    public static int Rows => HostileTexts.Count + 1;

    public static MemoryStream Zip()
    {
        var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            using (var meta = archive.CreateEntry(ArchiveDescriptor.FileName).Open())
            {
                ArchiveDescriptor.Write(meta, OccurrenceColumns.File, IdentificationColumns.File);
            }

            using (var eml = archive.CreateEntry(EmlDocument.FileName).Open())
            {
                EmlDocument.Write(eml, Description);
            }

            foreach (var file in new[] { OccurrenceColumns.File, IdentificationColumns.File })
            {
                using var entry = archive.CreateEntry(file.Name).Open();
                entry.Write(Encoding.UTF8.GetBytes(file.HeadingLine));
                for (var row = 0; row < Rows; row++)
                {
                    var line = ArchiveLine.Of(file.Columns.Select(column => Text(row, column)));
                    entry.Write(Encoding.UTF8.GetBytes(line));
                }
            }
        }

        stream.Position = 0;
        return stream;
    }
}
