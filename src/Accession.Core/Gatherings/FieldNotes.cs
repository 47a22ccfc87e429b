namespace Accession.Core.Gatherings;

/// <summary>
/// The field notes of a gathering: what the collector wrote, to the letter, beside what was read from it.
/// Places are not here; see <see cref="Localities.PublicPlace"/>.
/// </summary>
public sealed record FieldNotes
{
    /// <summary>The collectors to the letter.</summary>
    public string CollectorsVerbatim { get; init; } = "";

    /// <summary>The collectors as read, the numbering one first, separated by a bar between spaces.</summary>
    public string RecordedBy { get; init; } = "";

    /// <summary>The numbering collector's family name, folded, by which the gathering is found.</summary>
    public string CollectorKey { get; init; } = "";

    /// <summary>The collector number to the letter; "s.n." where the label says there is none.</summary>
    public string RecordNumber { get; init; } = "";

    /// <summary>The collector number folded, by which the gathering is found; empty without a number.</summary>
    public string NumberKey { get; init; } = "";

    /// <summary>The collecting date to the letter.</summary>
    public string DateVerbatim { get; init; } = "";

    /// <summary>The collecting date as read, in ISO 8601 with its own precision; empty when not read.</summary>
    public string EventDate { get; init; } = "";

    /// <summary>The year, where the date has just one.</summary>
    public int? Year { get; init; }

    /// <summary>The month, 1 to 12, where the date has just one.</summary>
    public int? Month { get; init; }

    /// <summary>The day of the month, where the date has just one.</summary>
    public int? Day { get; init; }

    /// <summary>What grew with it.</summary>
    public string AssociatedTaxa { get; init; } = "";

    /// <summary>The name on the list, to the letter.</summary>
    public string NameVerbatim { get; init; } = "";

    /// <summary>The doubt about the name where it stands apart, such as "cf."; empty when there is none.</summary>
    public string IdentificationQualifier { get; init; } = "";

    /// <summary>The family on the list, to the letter.</summary>
    public string Family { get; init; } = "";

    /// <summary>Who named it, to the letter.</summary>
    public string IdentifiedBy { get; init; } = "";

    /// <summary>When it was named, to the letter.</summary>
    public string DateIdentifiedVerbatim { get; init; } = "";

    /// <summary>When it was named, in ISO 8601 with its own precision; empty when not read.</summary>
    public string DateIdentified { get; init; } = "";

    /// <summary>Numbers that others gave the sheets, separated by a bar between spaces.</summary>
    public string OtherCatalogNumbers { get; init; } = "";
}
