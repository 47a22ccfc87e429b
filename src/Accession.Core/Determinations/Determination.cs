using Accession.Core.Gatherings;
using Accession.Core.Outcomes;

namespace Accession.Core.Determinations;

/// <summary>A name for a specimen, by someone, on a day. All are kept.</summary>
public sealed class Determination
{
    private Determination()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The specimen.</summary>
    public long SpecimenId { get; private set; }

    /// <summary>The act that put it on record; who named the plant is in <see cref="IdentifiedBy"/>.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that put it on record.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The name to the letter, with qualifier and authors as they were written.</summary>
    public string Name { get; private set; } = "";

    /// <summary>The doubt about the name where it stood apart, such as "cf."; empty when there is none.</summary>
    public string Qualifier { get; private set; } = "";

    /// <summary>The family, where it was given.</summary>
    public string Family { get; private set; } = "";

    /// <summary>Who named it, as written; empty when the list does not say.</summary>
    public string IdentifiedBy { get; private set; } = "";

    /// <summary>When, in ISO 8601 with its own precision; empty when unknown.</summary>
    public string DateIdentified { get; private set; } = "";

    /// <summary>What kind of opinion it is.</summary>
    public DeterminationKind Kind { get; private set; }

    /// <summary>On what it rests.</summary>
    public SeenOn SeenOn { get; private set; }

    /// <summary>Why, where somebody said.</summary>
    public string Reason { get; private set; } = "";

    /// <summary>Whether a curator has still to say whether its name counts.</summary>
    public bool Waits { get; private set; }

    internal static Determination Of(Opinion opinion, Act act) => new()
    {
        Act = act,
        Name = opinion.Name,
        Qualifier = opinion.Qualifier,
        Family = opinion.Family,
        IdentifiedBy = opinion.IdentifiedBy,
        DateIdentified = opinion.Date?.ToIso8601() ?? "",
        Kind = opinion.Kind,
        SeenOn = opinion.SeenOn,
        Reason = opinion.Reason,
        Waits = true,
    };

    internal bool SaysTheSameAs(Determination other) =>
        (Name, Qualifier, IdentifiedBy, DateIdentified, Kind)
        == (other.Name, other.Qualifier, other.IdentifiedBy, other.DateIdentified, other.Kind);

    internal void Decided() => Waits = false;

    internal static Determination FromHistory(ListedIdentification listed, Act act) => new()
    {
        Act = act,
        Name = listed.Name,
        Qualifier = listed.Qualifier,
        Family = listed.Family,
        IdentifiedBy = listed.IdentifiedBy,
        DateIdentified = listed.DateIdentified,
        Reason = listed.Provenance,
    };

    // Whether a row of the history is this identification, and perhaps says more of it.
    internal bool IsAlso(ListedIdentification listed) => Name == listed.Name
        && (Qualifier.Length == 0 || Qualifier == listed.Qualifier)
        && (IdentifiedBy.Length == 0 || IdentifiedBy == listed.IdentifiedBy)
        && (DateIdentified.Length == 0 || DateIdentified == listed.DateIdentified);

    internal void CompleteFrom(ListedIdentification listed)
    {
        (Qualifier, IdentifiedBy, DateIdentified) = (listed.Qualifier, listed.IdentifiedBy, listed.DateIdentified);
        Family = Family.Length > 0 ? Family : listed.Family;
        Reason = listed.Provenance;
    }

    internal static Determination FromList(FieldNotes notes, Act act) => new()
    {
        Act = act,
        Name = notes.NameVerbatim,
        Qualifier = notes.IdentificationQualifier,
        Family = notes.Family,
        IdentifiedBy = notes.IdentifiedBy,
        DateIdentified = notes.DateIdentified,
    };
}
