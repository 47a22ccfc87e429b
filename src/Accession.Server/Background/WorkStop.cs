namespace Accession.Server.Background;

/// <summary>
/// What becomes of a kind of work when somebody stops it, and the sentence that says so beside the button. A kind that
/// does not stand here cannot be stopped.
/// </summary>
/// <param name="IsPossible">Whether it may stop between two of its steps.</param>
/// <param name="IsForGood">Whether it is over then; otherwise it rests until somebody goes on with it.</param>
/// <param name="Button">What the button says; empty where there is none.</param>
/// <param name="Says">What stopping means, for whoever waits.</param>
public sealed record WorkStop(bool IsPossible, bool IsForGood, string Button, string Says)
{
    private static readonly WorkStop Never =
        new(false, false, "", "It cannot be cancelled: it has to come to its end to leave nothing half done.");

    private static readonly Dictionary<string, WorkStop> Kinds = new()
    {
        // A list that is half read is not compared with the one before it, so nothing may be taken from it.
        ["read a list"] = new(true, false, "Stop reading",
            "If you stop it, the rows read so far are kept, and the batch waits until somebody goes on: nothing of it "
            + "can be settled or taken in before the list is read to its end."),
        ["take rows in"] = new(true, false, "Stop taking in",
            "If you stop it, what is in the register stays there, and the batch waits until somebody goes on with the "
            + "other rows."),
        ["take sheets over"] = new(true, false, "Stop taking over",
            "If you stop it, the sheets in the register stay there with their numbers, and the batch waits until "
            + "somebody goes on with the others."),
        ["read rows again"] = Never with
        {
            Says = "It cannot be cancelled: half of the rows would be read one way and half the other.",
        },
        ["find duplicates"] = new(true, false, "Stop looking",
            "If you stop it, nothing of this batch can be settled or taken in until somebody goes on and the search "
            + "has come to its end."),
        ["compare rows with permits"] = new(true, false, "Stop comparing",
            "If you stop it, some rows keep the warnings they had, and nothing of this batch can be settled or taken "
            + "in until somebody goes on."),
        ["compare gatherings anew"] = Never,
        // A mail server may have taken it before anybody could say stop.
        ["send a letter"] = Never,
        ["build the archive"] = new(true, true, "Cancel",
            "If you cancel it, nothing of this archive is kept; earlier ones stay."),
    };

    /// <summary>The kinds of which something is said here.</summary>
    public static IReadOnlyCollection<string> Known => Kinds.Keys;

    /// <summary>What stopping means for a kind of work.</summary>
    public static WorkStop Of(string kind) => Kinds.GetValueOrDefault(kind, Never);
}
