using System.ComponentModel.DataAnnotations;

namespace Accession.Server.Hosting;

/// <summary>Whose herbarium this is, read from the section <c>Institution</c>.</summary>
public sealed class InstitutionOptions
{
    /// <summary>The herbarium's name, as it stands on pages and in published data.</summary>
    [Required, StringLength(200)]
    public string Name { get; set; } = "Our herbarium";

    /// <summary>The code of the institution that has the herbarium (Darwin Core institutionCode).</summary>
    [Required, RegularExpression("[A-Za-z0-9-]{1,20}", ErrorMessage = "must be 1 to 20 letters, digits or hyphens")]
    public string InstitutionCode { get; set; } = "HERB";

    /// <summary>The herbarium's acronym (Darwin Core collectionCode).</summary>
    [Required, RegularExpression("[A-Za-z0-9-]{1,20}", ErrorMessage = "must be 1 to 20 letters, digits or hyphens")]
    public string CollectionCode { get; set; } = "HERB";

    /// <summary>The time zone in which times are shown, as <c>America/Los_Angeles</c>. The default is UTC.</summary>
    [Required]
    public string TimeZone { get; set; } = "UTC";

    /// <summary>Whom readers of published data may write to.</summary>
    [EmailAddress]
    public string? Email { get; set; }

    /// <summary>What the data set holds, in one or two sentences, for its description.</summary>
    [StringLength(2000)]
    public string Abstract { get; set; } = "Specimens of a herbarium.";

    /// <summary>The licence of published data: CC0, CC-BY or CC-BY-NC. The default is CC-BY.</summary>
    [Required, RegularExpression("CC0|CC-BY|CC-BY-NC", ErrorMessage = "must be CC0, CC-BY or CC-BY-NC")]
    public string Licence { get; set; } = "CC-BY";

    /// <summary>The time zone itself; checked at the start.</summary>
    internal TimeZoneInfo Zone => TimeZoneInfo.FindSystemTimeZoneById(TimeZone);
}
