using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>
/// An entry of a batch's closing: the check of the list against the pile as it was on the day, or the reopening. It is
/// never edited.
/// </summary>
public sealed class BatchClosing
{
    private readonly List<CheckedSheets> _sheets = [];

    private BatchClosing()
    {
    }

    /// <summary>The key in the database; entries of one batch rise with time.</summary>
    public long Id { get; private set; }

    /// <summary>The batch.</summary>
    public long BatchId { get; private set; }

    /// <summary>Whether the batch was closed; otherwise it was opened again.</summary>
    public bool IsClosing { get; private set; }

    /// <summary>The day, at the institution.</summary>
    public DateOnly Day { get; private set; }

    /// <summary>The act: who, when, and the note.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when, and the note.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The sheets that the transmittal states; null when it states no number.</summary>
    public int? SheetsInTransmittal { get; private set; }

    /// <summary>The sheets that the rows taken in promised.</summary>
    public int SheetsOnList { get; private set; }

    /// <summary>The sheets that were counted in the pile.</summary>
    public int? SheetsInPile { get; private set; }

    /// <summary>The sheets that bear a number.</summary>
    public int SheetsNumbered { get; private set; }

    /// <summary>The sheets that do not stay.</summary>
    public int SheetsSetAside { get; private set; }

    /// <summary>The sheets that were missing or extra, as they were.</summary>
    public IReadOnlyList<CheckedSheets> Sheets => _sheets;

    internal static BatchClosing Closed(long batchId, TransmittalCheck check, DateOnly day, Act act)
    {
        var entry = new BatchClosing
        {
            BatchId = batchId,
            IsClosing = true,
            Day = day,
            Act = act,
            SheetsInTransmittal = check.SheetsInTransmittal,
            SheetsOnList = check.SheetsOnList,
            SheetsInPile = check.SheetsInPile,
            SheetsNumbered = check.SheetsNumbered,
            SheetsSetAside = check.SheetsSetAside,
        };
        entry._sheets.AddRange(check.Missing.Select(sheets => CheckedSheets.Of(sheets, isMissing: true)));
        entry._sheets.AddRange(check.Extra.Select(sheets => CheckedSheets.Of(sheets, isMissing: false)));
        return entry;
    }

    internal static BatchClosing Reopened(long batchId, DateOnly day, Act act) =>
        new() { BatchId = batchId, Day = day, Act = act };
}

/// <summary>Sheets of a gathering that were missing or extra when a batch was closed.</summary>
public sealed class CheckedSheets
{
    private CheckedSheets()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The entry it belongs to.</summary>
    public long ClosingId { get; private set; }

    /// <summary>The gathering.</summary>
    public long GatheringId { get; private set; }

    /// <summary>Missing; otherwise extra.</summary>
    public bool IsMissing { get; private set; }

    /// <summary>The collector, as read on the day.</summary>
    public string Collector { get; private set; } = "";

    /// <summary>The collector number, to the letter.</summary>
    public string Number { get; private set; } = "";

    /// <summary>The plant, to the letter.</summary>
    public string Plant { get; private set; } = "";

    /// <summary>How many sheets; at least 1.</summary>
    public int Sheets { get; private set; }

    internal static CheckedSheets Of(TransmittalCheck.Differing sheets, bool isMissing) => new()
    {
        GatheringId = sheets.GatheringId,
        IsMissing = isMissing,
        Collector = sheets.Collector,
        Number = sheets.Number,
        Plant = sheets.Plant,
        Sheets = sheets.Sheets,
    };
}
