namespace Accession.Tests.Stores;

/// <summary>Texts that break careless writers and readers of separated text.</summary>
internal static class HostileTexts
{
    /// <summary>Those that every database can hold.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "tab\there, break\nhere, both\r\nhere, backwards\n\rhere, alone\rhere",
        "\t", "\n", "\r\n", "\r\r\n", "\tbegins", "ends\t", " blanks stay  ",
        "control \u0001 \u000B \u001F \u007F \u0080 \u0085 \u009F here",
        "separators \u2028 and \u2029 here", "harmless neighbours \u00A0 ° ± — ‘quoted’ … \u202A here",
        "emoji 🌿👩🏽‍🌾 and beyond 𐐷",
        "\u202Eדגנים right to left العربية", "noncharacters \uFFFE \uFFFF here",
        "\"", "\"\"", "a\"b", "\"begins", "ends\"", "\\", "\\t\\n\\N",
        "\\.", "NULL", "=1+1", "'; DROP TABLE specimen; --",
        "<b>bold</b> & ]]>", "\uFEFFmark", new string('x', 200_000) + "\tend",
    ];
}
