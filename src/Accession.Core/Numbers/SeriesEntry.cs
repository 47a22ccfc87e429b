using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

/// <summary>
/// An entry in the history of a series: it was closed, or opened, or went on behind numbers that were taken over. It is
/// never edited.
/// </summary>
public sealed class SeriesEntry
{
    private SeriesEntry()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The series.</summary>
    public long SeriesId { get; private set; }

    /// <summary>What happened to it.</summary>
    public SeriesEntryKind Kind { get; private set; }

    /// <summary>
    /// Where it was opened or went on, the highest number seen on paper, as it is written; empty when none was seen.
    /// </summary>
    public string PaperHighest { get; private set; } = "";

    /// <summary>The act that did it: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that did it: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    internal static SeriesEntry Of(NumberSeries series, SeriesEntryKind kind, string paperHighest, Act act) => new()
    {
        SeriesId = series.Id,
        Kind = kind,
        PaperHighest = paperHighest,
        Act = act,
    };
}
