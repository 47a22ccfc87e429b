namespace Accession.Core.Matching;

/// <summary>
/// What a row is, against one gathering or against all. In the order in which a row's one finding is chosen: the
/// greater wins, but that a possible gathering with nearly everything in common goes before a clash. The values are
/// stored; do not renumber.
/// </summary>
public enum FindingKind
{
    /// <summary>Nothing here is of its gathering.</summary>
    New = 0,

    /// <summary>Someone should look.</summary>
    Possible = 1,

    /// <summary>The collector's number is here with another date and place: one of them is wrong.</summary>
    NumberClash = 2,

    /// <summary>Another sheet of a gathering that is here.</summary>
    SameGathering = 3,

    /// <summary>This very record is here already.</summary>
    Repeat = 4,
}
