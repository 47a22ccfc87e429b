using Accession.Core.Outcomes;

namespace Accession.Core.Localities;

/// <summary>
/// The geodetic datum to which coordinates refer, by its usual name: WGS84, NAD27, NAD83, or another as written.
/// Coordinates are not shifted from one datum to another; NAD27 read as WGS 84 lies some 80 to 100 m off in the
/// contiguous United States, which belongs into the uncertainty.
/// </summary>
public sealed record Datum
{
    private Datum(string name) => Name = name;

    /// <summary>The World Geodetic System 1984, EPSG 4326.</summary>
    public static Datum Wgs84 { get; } = new("WGS84");

    /// <summary>The North American Datum of 1927, EPSG 4267.</summary>
    public static Datum Nad27 { get; } = new("NAD27");

    /// <summary>The North American Datum of 1983, EPSG 4269; for herbarium work the same as WGS 84.</summary>
    public static Datum Nad83 { get; } = new("NAD83");

    /// <summary>
    /// The name for <c>dwc:geodeticDatum</c>; for a datum that is not one of the three, as it was written.
    /// </summary>
    public string Name { get; }

    /// <summary>Reads a datum as written: WGS 84, NAD-27, EPSG:4269.</summary>
    /// <param name="verbatim">The text to the letter.</param>
    public static Reading<Datum> Read(string verbatim)
    {
        ArgumentNullException.ThrowIfNull(verbatim);
        Span<char> packed = stackalloc char[40];
        var length = 0;
        foreach (var c in verbatim)
        {
            if (char.IsLetterOrDigit(c) && length < packed.Length)
            {
                packed[length++] = char.ToUpperInvariant(c);
            }
        }

        ReadOnlySpan<char> text = packed[..length];
        return text switch
        {
            "" => Reading<Datum>.Stopped(verbatim, 1, "No datum is written."),
            "WGS84" or "WGS1984" or "WGS" or "WORLDGEODETICSYSTEM1984" or "EPSG4326" or "4326"
                or "OGCCRS84" or "CRS84" =>
                Reading<Datum>.Of(verbatim, Wgs84, text is "WGS" ? "WGS of which year? Taken as WGS 84." : null),
            "NAD27" or "NAD1927" or "NORTHAMERICANDATUM1927" or "NORTHAMERICAN1927" or "EPSG4267" or "4267" =>
                Reading<Datum>.Of(verbatim, Nad27),
            "NAD83" or "NAD1983" or "NORTHAMERICANDATUM1983" or "NORTHAMERICAN1983" or "EPSG4269" or "4269" =>
                Reading<Datum>.Of(verbatim, Nad83),
            "UNKNOWN" or "NOTRECORDED" or "NOTKNOWN" or "NONE" or "NA" =>
                Reading<Datum>.Stopped(verbatim, 1, "The datum is not known; the uncertainty has to allow for that."),
            _ => Reading<Datum>.Of(verbatim, new(verbatim.Trim()),
                "This datum is kept as written; the coordinates are not converted."),
        };
    }

    /// <summary>The name.</summary>
    public override string ToString() => Name;
}
