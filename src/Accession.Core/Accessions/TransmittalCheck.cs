using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>The sender's list against the sheets, gathering by gathering, before a batch is closed.</summary>
/// <param name="SheetsInTransmittal">The sheets that the transmittal states; null when it states no number.</param>
/// <param name="SheetsOnList">The sheets that the rows taken in promised.</param>
/// <param name="SheetsInPile">The sheets that were counted in the pile; null where nobody counts.</param>
/// <param name="SheetsNumbered">The sheets that bear a number.</param>
/// <param name="SheetsSetAside">The sheets that do not stay.</param>
/// <param name="OpenRows">Rows with a problem that nobody settled.</param>
/// <param name="UndecidedRows">Rows that were found to belong with something, and about which nothing is final.</param>
/// <param name="SettledRows">Rows that are settled and not taken in.</param>
/// <param name="Missing">Gatherings with fewer sheets than promised.</param>
/// <param name="Extra">Gatherings with more sheets than promised.</param>
public sealed record TransmittalCheck(
    int? SheetsInTransmittal,
    int SheetsOnList,
    int? SheetsInPile,
    int SheetsNumbered,
    int SheetsSetAside,
    int OpenRows,
    int UndecidedRows,
    int SettledRows,
    IReadOnlyList<TransmittalCheck.Differing> Missing,
    IReadOnlyList<TransmittalCheck.Differing> Extra)
{
    /// <summary>The most gatherings that a closing can name; more differ only before the pile is numbered.</summary>
    public const int MostNamed = 5000;

    private const int MostSheets = 10_000_000;
    private const int FewestLetters = 3;

    /// <summary>Sheets of a gathering that are missing or extra.</summary>
    /// <param name="GatheringId">The gathering.</param>
    /// <param name="Collector">The collector, as read.</param>
    /// <param name="Number">The collector number, to the letter.</param>
    /// <param name="Plant">The plant, to the letter.</param>
    /// <param name="Sheets">How many; at least 1.</param>
    public sealed record Differing(long GatheringId, string Collector, string Number, string Plant, int Sheets);

    /// <summary>
    /// What does not agree, each as a sentence: transmittal, list and pile, and the sheets that are missing or extra.
    /// </summary>
    public IReadOnlyList<string> Differences =>
    [
        .. SheetsInTransmittal is { } stated && stated != SheetsOnList
            ? [$"The transmittal states {Count(stated)}, and the rows taken in promise {Count(SheetsOnList)}."]
            : Array.Empty<string>(),
        .. SheetsInPile is { } counted && new PileCount(counted, null).Difference(SheetsOnList) is { } pile
            ? [$"In the pile {Count(counted)} were counted, and the rows promise {Count(SheetsOnList)}: {pile}."]
            : Array.Empty<string>(),
        .. Missing.Count > 0
            ? [$"Missing: {Count(Missing.Sum(m => m.Sheets))} of {Gatherings(Missing.Count)}, without a number and not "
                + "set aside."]
            : Array.Empty<string>(),
        .. Extra.Count > 0
            ? [$"Extra: {Count(Extra.Sum(e => e.Sheets))} of {Gatherings(Extra.Count)}, more than the list promised."]
            : Array.Empty<string>(),
    ];

    /// <summary>Why the batch cannot be closed as it is; empty when it can.</summary>
    /// <param name="note">What is written about what does not agree.</param>
    public IEnumerable<Refusal> WhyNot(string? note)
    {
        if (SheetsInTransmittal is < 0 or > MostSheets)
        {
            yield return new(RefusalKind.Invalid, "The sheets of the transmittal are a number from 0 to 10,000,000.");
        }

        if (OpenRows > 0)
        {
            yield return Waits(OpenRows, "open");
        }

        if (UndecidedRows > 0)
        {
            yield return Waits(UndecidedRows, "found to belong with something and not decided");
        }

        if (SettledRows > 0)
        {
            yield return Waits(SettledRows, "settled and not taken into the register");
        }

        if (Missing.Count > MostNamed || Extra.Count > MostNamed)
        {
            yield return new(RefusalKind.Conflict,
                $"More than {MostNamed:N0} gatherings do not agree with the list. Number the sheets first.");
        }

        // A dash or a tick explains nothing to whoever looks for the sheet in ten years.
        var isExplained = note is not null && note.Count(char.IsLetter) >= FewestLetters;
        if (!isExplained && Differences is [var first, ..])
        {
            yield return new(RefusalKind.Invalid,
                $"{first} Write a note that says in words what is missing or extra and why.");
        }
    }

    private static Refusal Waits(int rows, string how) => new(
        RefusalKind.Conflict,
        rows == 1
            ? $"1 row is {how}. Settle it before the batch is closed."
            : $"{rows:N0} rows are {how}. Settle them before the batch is closed.");

    private static string Count(int sheets) => sheets == 1 ? "1 sheet" : $"{sheets:N0} sheets";

    private static string Gatherings(int count) => count == 1 ? "1 gathering" : $"{count:N0} gatherings";
}
