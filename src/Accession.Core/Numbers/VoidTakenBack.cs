using Accession.Core.Outcomes;

namespace Accession.Core.Numbers;

/// <summary>The entry that takes a void back, made by mistake: its numbers are unused again.</summary>
public sealed class VoidTakenBack
{
    private VoidTakenBack()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The entry that made the numbers void; it is taken back once.</summary>
    public long VoidId { get; private set; }

    /// <summary>The act that took it back: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that took it back: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Takes a void back, or says why it must stay.</summary>
    /// <param name="of">The entry that made the numbers void.</param>
    /// <param name="isTakenBack">Whether somebody did so already.</param>
    /// <param name="isOnSheet">Whether one of the numbers is on a sheet.</param>
    /// <param name="act">The act, with its reason, of at most 200 characters.</param>
    public static Outcome<VoidTakenBack> Take(VoidedNumbers of, bool isTakenBack, bool isOnSheet, Act act)
    {
        if (act.Reason is not { Length: > 0 and <= 200 })
        {
            return new Refusal(RefusalKind.Invalid,
                "Say in at most 200 characters why the numbers are good again, such as: the barcode was found.");
        }

        if (isTakenBack)
        {
            return new Refusal(RefusalKind.Conflict, "That was taken back already; the numbers are unused again.");
        }

        return isOnSheet
            ? new Refusal(RefusalKind.Conflict, "One of the numbers is on a sheet by now, so nothing is taken back.")
            : new VoidTakenBack { VoidId = of.Id, Act = act };
    }
}
