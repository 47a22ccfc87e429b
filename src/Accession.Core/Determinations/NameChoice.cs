using Accession.Core.Outcomes;

namespace Accession.Core.Determinations;

/// <summary>
/// That a curator let an opinion count from now on, or kept it beside the name that counts. The last one that counts
/// says which name is current; without any it is the first name of all.
/// </summary>
public sealed class NameChoice
{
    private NameChoice()
    {
    }

    internal NameChoice(long determinationId, bool counts, Act act) =>
        (DeterminationId, Counts, Act) = (determinationId, counts, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The specimen.</summary>
    public long SpecimenId { get; private set; }

    /// <summary>The opinion.</summary>
    public long DeterminationId { get; private set; }

    /// <summary>Whether its name counts from now on.</summary>
    public bool Counts { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;
}
