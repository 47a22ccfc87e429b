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

    /// <summary>When it was first wanted, for those who wait.</summary>
    public DateTime WantedAt { get; private set; }

    public static WorkRow Wanted(string kind, long subject, Act act) =>
        new() { Kind = kind, Subject = subject, Act = act, WantedAt = act.At };
}
