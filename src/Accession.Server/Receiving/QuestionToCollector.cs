namespace Accession.Server.Receiving;

/// <summary>The question that is put to a collector when two labels cannot both be right.</summary>
internal static class QuestionToCollector
{
    /// <summary>How long a collector is given.</summary>
    internal static readonly TimeSpan AnswerWithin = TimeSpan.FromDays(14);

    /// <summary>What stands above the letter.</summary>
    public static string Subject(FoundRows.Shown finding) => $"Question about your {Number(finding)}";

    /// <summary>
    /// A draft in plain text: what is asked and by when, then both labels side by side. The place of a protected label
    /// is left out, and so is what was reckoned from it; what was found is told to curators, not to collectors.
    /// </summary>
    public static string Draft(FoundRows.Shown finding, string house, string answerBy)
    {
        var theirs = finding.Label;
        var other = finding.Closest?.Label;
        string[] lines =
        [
            $"Please answer by {answerBy}: which of two labels is right for your {Number(finding)}?",
            "",
            "They seem to belong together, and not all of what they say can be right. A short answer to this mail is "
                + "enough: the first, the second, or what it should say.",
            "",
            .. Facts("Collector", label => label.Collectors(null).Text),
            .. Facts("Number", label => label.Number(null).Text),
            .. Facts("Date", label => label.Date(null).Text),
            .. Facts("County", label => label.Region(null).Text),
            .. other is { IsProtected: true } ? [] : Facts("Place", label => label.Locality(null).Text),
            .. Facts("Plant", label => label.Name(null).Text),
            "",
            "Thank you.",
            house,
        ];
        return string.Join('\n', lines);

        IEnumerable<string> Facts(string name, Func<FindingLabel, string> fact) =>
        [
            name,
            $"  your list: {Or(fact(theirs), "-")}",
            $"  the other: {Or(other is null ? "" : fact(other), "-")}",
        ];
    }

    private static string Number(FoundRows.Shown finding) =>
        finding.Label.Notes.RecordNumber is var number && number.Any(char.IsDigit)
            ? $"number {number}"
            : "sheet without a number";

    private static string Or(string text, string otherwise) => text.Length > 0 ? text : otherwise;
}
