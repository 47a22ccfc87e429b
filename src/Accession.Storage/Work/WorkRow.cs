using Accession.Core.Outcomes;

namespace Accession.Storage.Work;

/// <summary>
/// A piece of long work, written in the transaction that wants it. Whoever claims it holds a lease; a process that dies
/// lets the lease run out, and the next one goes on from the checkpoint.
/// </summary>
public sealed class WorkRow
{
    private WorkRow()
    {
    }

    public long Id { get; private set; }

    /// <summary>Which kind of work; the server knows one class for each.</summary>
    public string Kind { get; private set; } = "";

    /// <summary>The key of what is worked on: a list, a batch, an accession.</summary>
    public long Subject { get; private set; }

    /// <summary>The act that wanted it.</summary>
    public long ActId { get; private set; }

    public Act Act { get; private set; } = null!;

    /// <summary>Who works on it now; null when nobody does.</summary>
    public string? Owner { get; private set; }

    /// <summary>Until when the owner is believed to be alive.</summary>
    public DateTime? LeaseUntil { get; private set; }

    /// <summary>How often somebody began it.</summary>
    public int Attempts { get; private set; }

    /// <summary>Since when the pieces that are done now are counted; null before it was begun.</summary>
    public DateTime? BegunAt { get; private set; }

    /// <summary>How many pieces are done, of <see cref="Total"/>.</summary>
    public long Done { get; private set; }

    /// <summary>How many pieces there are; 0 while nobody knows.</summary>
    public long Total { get; private set; }

    /// <summary>When it ended, well or badly; null while it waits or runs.</summary>
    public DateTime? FinishedAt { get; private set; }

    /// <summary>Why it ended badly, as a sentence; null when it did not.</summary>
    public string? Failure { get; private set; }

    /// <summary>What it brought forth, such as the name of a file.</summary>
    public string? Result { get; private set; }

    /// <summary>The act that asked to stop it; null when nobody did, or somebody went on with it since.</summary>
    public long? StopActId { get; private set; }

    /// <summary>The act that asked to stop it.</summary>
    public Act? StopAct { get; private set; }

    /// <summary>
    /// When it stopped because somebody asked for it. Without a <see cref="FinishedAt"/> it rests, and goes on when it
    /// is told to.
    /// </summary>
    public DateTime? StoppedAt { get; private set; }

    /// <summary>Before this nobody begins it, because it was put off; null when it may begin at once.</summary>
    public DateTime? NotBefore { get; private set; }

    /// <summary>When it was first wanted, for those who wait.</summary>
    public DateTime WantedAt { get; private set; }

    /// <summary>Asks it to stop; whoever does it heeds that after the step under way.</summary>
    /// <returns>Why it makes no sense; null when it was asked.</returns>
    public Refusal? Stop(Act act)
    {
        if (FinishedAt is not null || StopActId is not null)
        {
            return new(RefusalKind.Conflict, FinishedAt is not null && StoppedAt is null
                ? "It was done before it could be stopped."
                : "Somebody stopped it already.");
        }

        StopAct = act;
        return null;
    }

    /// <summary>Goes on with work that rests.</summary>
    /// <returns>Why that cannot be; null when it waits for whoever does it.</returns>
    public Refusal? GoOn()
    {
        if (StoppedAt is null || FinishedAt is not null)
        {
            return new(RefusalKind.Conflict, FinishedAt is null
                ? "It does not rest: there is nothing to go on with."
                : "It is over. Ask for it again where you asked for it first.");
        }

        (StopAct, StopActId, StoppedAt, Attempts) = (null, null, null, 0);
        return null;
    }

    public static WorkRow Wanted(string kind, long subject, Act act) =>
        new() { Kind = kind, Subject = subject, Act = act, WantedAt = act.At };
}
