namespace Accession.Core.Localities;

/// <summary>
/// Where a gathering grew, as everyone may know it: exact where nothing is protected, generalised where something is.
/// </summary>
public sealed record PublicPlace
{
    /// <summary>The country, to the letter.</summary>
    public string Country { get; init; } = "";

    /// <summary>ISO 3166-1 alpha-2 code of the country; empty when it was not recognised.</summary>
    public string CountryCode { get; init; } = "";

    /// <summary>State or province.</summary>
    public string StateProvince { get; init; } = "";

    /// <summary>County.</summary>
    public string County { get; init; } = "";

    /// <summary>Municipality.</summary>
    public string Municipality { get; init; } = "";

    /// <summary>The place in words; a note of what is withheld where the place is protected.</summary>
    public string Locality { get; init; } = "";

    /// <summary>The surroundings in words; empty where the place is protected, since words name places.</summary>
    public string Habitat { get; init; } = "";

    /// <summary>
    /// What pressing destroys (height, colours, smell) and other remarks; empty where the place is protected, since
    /// remarks may describe it.
    /// </summary>
    public string Remarks { get; init; } = "";

    /// <summary>Coordinates to the letter; empty where the place is protected.</summary>
    public string CoordinatesVerbatim { get; init; } = "";

    /// <summary>Latitude in decimal degrees, north positive; generalised where the place is protected.</summary>
    public double? Latitude { get; init; }

    /// <summary>Longitude in decimal degrees, east positive; generalised where the place is protected.</summary>
    public double? Longitude { get; init; }

    /// <summary>
    /// To what unit the point is given, in degrees, such as 0.00001; the width of the cell where the place is
    /// protected.
    /// </summary>
    public double? CoordinatePrecision { get; init; }

    /// <summary>Radius in metres round the point that holds the true place; never 0, null when unknown.</summary>
    public double? UncertaintyInMeters { get; init; }

    /// <summary>The geodetic datum, as written or "WGS84".</summary>
    public string GeodeticDatum { get; init; } = "";

    /// <summary>Elevation to the letter; empty where the place is protected.</summary>
    public string ElevationVerbatim { get; init; } = "";

    /// <summary>Lowest elevation in metres.</summary>
    public double? MinimumElevationInMeters { get; init; }

    /// <summary>Highest elevation in metres.</summary>
    public double? MaximumElevationInMeters { get; init; }

    /// <summary>What was done to the place to make it less exact; empty where it is exact.</summary>
    public string DataGeneralizations { get; init; } = "";

    /// <summary>What exists and is not shown; empty where nothing is withheld.</summary>
    public string InformationWithheld { get; init; } = "";
}
