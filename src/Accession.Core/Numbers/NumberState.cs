namespace Accession.Core.Numbers;

/// <summary>What became of a number of a series for sheets.</summary>
public enum NumberState
{
    /// <summary>It is on a sheet.</summary>
    OnSheet,

    /// <summary>It stands on a roll, and on no sheet yet.</summary>
    Unused,

    /// <summary>It is void, with a reason.</summary>
    Void,

    /// <summary>The counter has laid it ready for the next sheet.</summary>
    Ready,

    /// <summary>The counter has not come to it yet.</summary>
    NotIssued,

    /// <summary>It was issued and is none of these, or two of them at once: there is a fault in the register.</summary>
    Unaccounted,
}
