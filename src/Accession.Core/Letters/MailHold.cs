using Accession.Core.Outcomes;

namespace Accession.Core.Letters;

/// <summary>
/// A time in which no letter leaves: after a register was restored, letters that wait in it may have gone out before.
/// It begins with one act and ends with another.
/// </summary>
public sealed class MailHold
{
    private MailHold()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The act that held the mail: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that held the mail: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that let it go; null while it is held.</summary>
    public long? ReleasedActId { get; private set; }

    /// <summary>The act that let it go; null while it is held.</summary>
    public Act? ReleasedAct { get; private set; }

    /// <summary>Holds the mail from now on.</summary>
    /// <param name="act">The act: who, when and why.</param>
    public static MailHold Begin(Act act) => new() { Act = act };

    /// <summary>Lets the mail go.</summary>
    /// <param name="act">The act: who and when.</param>
    public void Release(Act act) => ReleasedAct = act;
}
