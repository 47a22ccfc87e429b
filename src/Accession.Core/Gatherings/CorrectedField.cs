namespace Accession.Core.Gatherings;

/// <summary>
/// A fact of a gathering that can be corrected after it was accepted. What the plant is called is no such fact: a name
/// is an opinion, and another name is a further determination. The names are stored; do not rename.
/// </summary>
public enum CorrectedField
{
    /// <summary>The collectors as read, the numbering one first.</summary>
    Collectors,

    /// <summary>The collector's number.</summary>
    Number,

    /// <summary>When it was collected.</summary>
    Date,

    /// <summary>What grew with it.</summary>
    AssociatedTaxa,

    /// <summary>Numbers that others gave the sheets.</summary>
    OtherNumbers,

    /// <summary>The country.</summary>
    Country,

    /// <summary>The state or province.</summary>
    StateProvince,

    /// <summary>The county.</summary>
    County,

    /// <summary>The datum of the coordinates.</summary>
    GeodeticDatum,

    /// <summary>The municipality.</summary>
    Municipality,

    /// <summary>The place in words.</summary>
    Locality,

    /// <summary>The point, in decimal degrees.</summary>
    Coordinates,

    /// <summary>The radius round the point, in metres.</summary>
    Uncertainty,

    /// <summary>The height above the sea, in metres.</summary>
    Elevation,

    /// <summary>The surroundings in words.</summary>
    Habitat,

    /// <summary>Other remarks.</summary>
    Remarks,
}

/// <summary>What is known of the fields that can be corrected.</summary>
public static class CorrectedFields
{
    /// <summary>All of them, in the order of a label.</summary>
    public static IReadOnlyList<CorrectedField> All { get; } = Enum.GetValues<CorrectedField>();

    /// <summary>
    /// Whether it tells the exact place: with a protected place it is withheld, and so is what it was before.
    /// </summary>
    /// <param name="field">The field.</param>
    public static bool IsOfExactPlace(this CorrectedField field) => field is CorrectedField.Municipality
        or CorrectedField.Locality or CorrectedField.Coordinates or CorrectedField.Uncertainty
        or CorrectedField.Elevation or CorrectedField.Habitat or CorrectedField.Remarks;

    /// <summary>Whether it is words in which a text can be replaced by another; a date and a figure are not.</summary>
    /// <param name="field">The field.</param>
    public static bool IsWords(this CorrectedField field) => field is not (CorrectedField.Date
        or CorrectedField.Coordinates or CorrectedField.Uncertainty or CorrectedField.Elevation);
}
