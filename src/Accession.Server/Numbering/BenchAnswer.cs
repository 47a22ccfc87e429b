using Accession.Core.Outcomes;

namespace Accession.Server.Numbering;

/// <summary>The answer to a scan, in words and with a shape: one line in the list, one verdict above it.</summary>
public sealed record BenchAnswer(
    string Mark, string Code, string State, string Verdict, string Says, string? CatalogNumber)
{
    public const string ToScanBack = "Scan it back";
    public const string Issued = "Issued";
    public const string Proven = "Proven";
    public const string Numbered = "Numbered";

    private const string CountedOnce = "Counted";

    /// <summary>Whether it tells of an act, which the register tells again when the page is loaded again.</summary>
    public bool IsOnRecord => CatalogNumber is not null || State == CountedOnce;

    /// <summary>Whether a number was issued that has still to be read from the sheet.</summary>
    public bool AwaitsScan => State == ToScanBack;

    public static BenchAnswer Of(string code, Outcome<SheetAtBench> outcome) =>
        outcome.IsRefused ? Refused(code, outcome.Refusals) : Of(outcome.Value);

    /// <summary>Where the sheets are shown that bear what was scanned; null when no sheet does.</summary>
    public string? Bearing { get; init; }

    /// <summary>Nothing was done, and why.</summary>
    public static BenchAnswer Refused(string code, IReadOnlyList<Refusal> refusals) =>
        new("stop", code, "Refused", $"{code}: not done", string.Join(" ", refusals.Select(r => r.Reason)), null);

    private static BenchAnswer Of(SheetAtBench sheet)
    {
        var says = Joined(sheet.Label, sheet.Name, $"sheet {sheet.SheetsNumbered} of {sheet.SheetsExpected}");
        var number = sheet.CatalogNumber;
        return sheet.Result switch
        {
            BenchResult.Issued => new("waiting", number, ToScanBack,
                $"{number}: put it on the sheet, then scan it", says, number),
            BenchResult.Proven => new("done", number, Proven, $"{number} was read from the sheet", says, number),
            _ => new("done", number, Numbered, $"{number} is on the sheet", says, number),
        };
    }

    /// <summary>An act of earlier, as it stands in the register now.</summary>
    public static BenchAnswer OnRecord(string state, string catalogNumber, string label, string name) =>
        new(state == ToScanBack ? "waiting" : "done", catalogNumber, state, "", Joined(label, name), catalogNumber);

    /// <summary>A typed collector number took up another gathering.</summary>
    public static BenchAnswer TakenUp(string text, PileInHand.Sheet sheet) =>
        new("waiting", text, "Taken up", $"{sheet.Label} is in hand",
            Joined(sheet.Name, sheet.Left == 1 ? "1 sheet left" : $"{sheet.Left:N0} sheets left"), null);

    /// <summary>Several gatherings answer to what was typed.</summary>
    public static BenchAnswer Several(string text, int count) =>
        new("waiting", text, $"{count} found", "Choose the one in your hand", "", null);

    /// <summary>A badge was scanned; its code is shown nowhere.</summary>
    public static BenchAnswer TookUp(Outcome<string> outcome) => outcome.IsRefused
        ? new("stop", "Badge", "Refused", "The badge was not taken",
            string.Join(" ", outcome.Refusals.Select(r => r.Reason)), null)
        : new("done", "Badge", "Hands changed", $"{outcome.Value} is at the bench", "The scans bear that name.", null);

    /// <summary>Whoever is signed in works again.</summary>
    public static BenchAnswer HandedBack(string name) => new(
        "done", Shared.BenchCommand.HandBack, "Hands changed", $"{name} is at the bench", "The scans bear that name.",
        null);

    /// <summary>One more sheet was counted.</summary>
    public static BenchAnswer Counted(string said) =>
        new("done", "one more", CountedOnce, "One more sheet", said, null);

    private static string Joined(params string[] facts) => string.Join(", ", facts.Where(fact => fact.Length > 0));
}
