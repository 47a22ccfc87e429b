using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>From an act on, somebody has a part. Entries are added, never edited.</summary>
public sealed class CustodyEntry
{
    private CustodyEntry()
    {
    }

    internal CustodyEntry(Act act, string holder)
    {
        Act = act;
        Holder = holder;
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The part.</summary>
    public long PartId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Who has it from then on.</summary>
    public string Holder { get; private set; } = "";
}
