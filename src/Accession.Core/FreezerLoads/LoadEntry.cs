using Accession.Core.Outcomes;

namespace Accession.Core.FreezerLoads;

/// <summary>How a load stands.</summary>
public enum LoadStanding
{
    /// <summary>Its list is being made; the lid has not been closed on it.</summary>
    Listed,

    /// <summary>It is in, with the lid closed.</summary>
    Running,

    /// <summary>It was taken out, and nobody has settled what that is worth.</summary>
    TakenOut,

    /// <summary>A house rule let it in. That proves nothing.</summary>
    UnderHouseRule,

    /// <summary>A curator let it in, with a reason.</summary>
    Waived,

    /// <summary>It is not known whether pests are dead. It is repeated.</summary>
    NotProved,

    /// <summary>It got warm, or was never cold enough. It is repeated.</summary>
    Failed,
}

/// <summary>What happened to a load.</summary>
public enum LoadEvent
{
    /// <summary>The list was begun.</summary>
    Listed,

    /// <summary>The lid was closed: the clock begins.</summary>
    LidClosed,

    /// <summary>Something was added while it ran: the clock begins again.</summary>
    ClockBeganAgain,

    /// <summary>It was taken out.</summary>
    TakenOut,

    /// <summary>A house rule let it in.</summary>
    UnderHouseRule,

    /// <summary>A curator let it in.</summary>
    Waived,

    /// <summary>It was recorded as not proved.</summary>
    NotProved,

    /// <summary>It was recorded as failed.</summary>
    Failed,
}

/// <summary>Something happened to a load. Entries are added, never edited.</summary>
public sealed class LoadEntry
{
    private LoadEntry()
    {
    }

    internal LoadEntry(LoadEvent what, DateTime at, Act act, long? houseRuleId = null) =>
        (What, At, Act, HouseRuleId) = (what, at, act, houseRuleId);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The load.</summary>
    public long LoadId { get; private set; }

    /// <summary>What happened.</summary>
    public LoadEvent What { get; private set; }

    /// <summary>When it happened, in UTC; the act says when it was written down.</summary>
    public DateTime At { get; private set; }

    /// <summary>The act: who and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The house rule, where it was one.</summary>
    public long? HouseRuleId { get; private set; }
}
