namespace Accession.Server.Receiving;

/// <summary>The question that is put to a collector when two labels cannot both be right.</summary>
internal static class QuestionToCollector
{
    /// <summary>A draft in plain text, with both readings side by side.</summary>
    public static string Draft(FindingsModel.Shown finding)
    {
        var theirs = finding.Label;
        var other = finding.Closest?.Label;
        string[] lines =
        [
            $"Question about your number {Or(theirs.Notes.RecordNumber, "(without number)")}",
            "",
            "Two labels seem to belong together, and not all of what they say can be right. Which is?",
            "",
            .. Facts("Collector", label => label.Collectors(null).Text),
            .. Facts("Number", label => label.Number(null).Text),
            .. Facts("Date", label => label.Date(null).Text),
            .. Facts("County", label => label.Region(null).Text),
            .. other is { IsProtected: true } ? [] : Facts("Place", label => label.Locality(null).Text),
            .. Facts("Plant", label => label.Name(null).Text),
            "",
            .. finding.Closest?.Sentences ?? [],
            "",
            "A short answer is enough: the first, the second, or what it should say. Thank you.",
        ];
        return string.Join('\n', lines);

        IEnumerable<string> Facts(string name, Func<FindingLabel, string> fact) =>
        [
            $"  {name,-10} your list: {Or(fact(theirs), "-")}",
            $"  {"",-10} the other: {Or(other is null ? "" : fact(other), "-")}",
        ];
    }

    private static string Or(string text, string otherwise) => text.Length > 0 ? text : otherwise;
}
