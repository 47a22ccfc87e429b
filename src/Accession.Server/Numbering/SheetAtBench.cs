namespace Accession.Server.Numbering;

/// <summary>
/// What happened to a sheet at the numbering bench. Every act there answers alike, so a scan sent again does too.
/// </summary>
public sealed record SheetAtBench(
    BenchResult Result,
    string CatalogNumber,
    long GatheringId,
    string Label,
    string Name,
    int SheetsNumbered,
    int SheetsExpected);

/// <summary>What an act at the numbering bench did.</summary>
public enum BenchResult
{
    /// <summary>The next number was issued; it has to be written on the sheet and scanned back.</summary>
    Issued,

    /// <summary>The barcode of a roll numbered the sheet, and proved itself.</summary>
    Numbered,

    /// <summary>The number had been issued, and was now read from the sheet.</summary>
    Proven,
}
