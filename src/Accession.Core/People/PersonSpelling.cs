using Accession.Core.Outcomes;

namespace Accession.Core.People;

/// <summary>
/// A spelling that a curator said is one person: one collector as the register shows it. It holds within the person's
/// years; beyond them it may be another's.
/// </summary>
public sealed class PersonSpelling
{
    private PersonSpelling()
    {
    }

    internal PersonSpelling(string written, Act act, int place)
    {
        Place = place;
        Written = written;
        FamilyKey = Collectors.FamilyKeyOf(written);
        Act = act;
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The person.</summary>
    public long PersonId { get; private set; }

    /// <summary>The spelling, to the letter.</summary>
    public string Written { get; private set; } = "";

    /// <summary>The family name folded, by which gatherings are looked up.</summary>
    public string FamilyKey { get; private set; } = "";

    /// <summary>
    /// The place among the persons of this spelling, which keeps two curators from giving it to two at once.
    /// </summary>
    public int Place { get; private set; }

    /// <summary>The act that said so: who and when.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that said so: who and when.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that took it back; null while it holds.</summary>
    public long? EndedActId { get; private set; }

    /// <summary>The act that took it back; null while it holds.</summary>
    public Act? EndedAct { get; private set; }

    internal void End(Act act) => EndedAct = act;
}
