namespace Accession.Core.Numbers;

/// <summary>What an entry in the history of a series tells.</summary>
public enum SeriesEntryKind
{
    /// <summary>Somebody closed it by hand.</summary>
    Closed,

    /// <summary>It was closed: the register was restored, and may have forgotten numbers that are on paper.</summary>
    ClosedAfterRestore,

    /// <summary>It was opened again with the highest number seen on paper.</summary>
    Opened,

    /// <summary>
    /// Its counter went on behind the highest number on sheets that were taken over. It stays open or closed.
    /// </summary>
    WentBehindTakenOver,
}
