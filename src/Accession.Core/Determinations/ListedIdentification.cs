namespace Accession.Core.Determinations;

/// <summary>
/// One identification out of the history that came with a record in a Darwin Core archive: a row of its Identification
/// table (https://dwc.tdwg.org/terms/#identification).
/// </summary>
public sealed record ListedIdentification
{
    internal ListedIdentification()
    {
    }

    /// <summary>The name to the letter; empty where the row has none, and then it is no determination.</summary>
    public required string Name { get; init; }

    /// <summary>The doubt about it, such as "cf."; empty when there is none.</summary>
    public required string Qualifier { get; init; }

    /// <summary>The family; empty when it is not given.</summary>
    public required string Family { get; init; }

    /// <summary>Who named it, as written; empty when nobody is said.</summary>
    public required string IdentifiedBy { get; init; }

    /// <summary>When, to the letter; empty when nothing is said.</summary>
    public required string DateVerbatim { get; init; }

    /// <summary>When, in ISO 8601 with its own precision; empty when it is unknown or cannot be read.</summary>
    public required string DateIdentified { get; init; }

    /// <summary>Why the date cannot be read; null when it can, or is not there.</summary>
    public string? DateProblem { get; init; }

    /// <summary>Whether the row says of itself that it is the one that counts (isAcceptedIdentification).</summary>
    public bool IsAccepted { get; init; }

    /// <summary>Remarks, and every other term of the row to the letter; empty when there is none.</summary>
    public required string Remarks { get; init; }

    /// <summary>Where it is from, with what else the archive said.</summary>
    public string Provenance
    {
        get
        {
            var said = "From the identification history of the archive that came."
                + (DateProblem is null ? "" : $" Dated \"{DateVerbatim}\", which cannot be read.")
                + (Remarks.Length > 0 ? $" {Remarks}" : "");
            return said.Length <= Opinion.LongestReason ? said : said[..(Opinion.LongestReason - 1)] + "…";
        }
    }
}
