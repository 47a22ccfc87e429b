namespace Accession.Server.Receiving;

/// <summary>Where a batch stands, computed from its rows: a mark and words for people.</summary>
public sealed record BatchState(string Mark, string Words)
{
    /// <summary>A batch whose list may be an earlier one's: nothing goes in before somebody says.</summary>
    public static BatchState WhichList { get; } = new("stop", "Which list is it?");

    /// <summary>A batch whose list was checked against the sheets.</summary>
    public static BatchState Closed { get; } = new("done", "Closed");

    public static BatchState Of(
        bool isRead, bool isRefused, bool hasOpen, bool hasFound, bool hasSettled, bool isInRegister) =>
        (isRead, isRefused, hasOpen, hasFound, hasSettled, isInRegister) switch
        {
            (false, _, _, _, _, _) => new("waiting", "Being read"),
            (_, true, _, _, _, _) => new("stop", "Could not be read"),
            (_, _, true, _, _, false) => new("waiting", "Rows to settle"),
            (_, _, _, true, _, false) => new("waiting", "Findings to settle"),
            (_, _, _, _, true, _) => new("waiting", "To take into the register"),
            (_, _, true, _, _, true) or (_, _, _, true, _, true) => new("waiting", "In the register, some rows open"),
            (_, _, _, _, _, true) => new("done", "In the register"),
            _ => new("none", "Nothing to take in"),
        };
}
