using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Standards.Countries;

namespace Accession.Core.Batches;

/// <summary>Reads where a row says it grew.</summary>
internal sealed class PlaceReader(
    Func<ListField, string> text,
    Func<ListField, string> heading,
    Func<ListField, HeadingUnit?> unit,
    Action<RowFault> add)
{
    public PublicPlace Read()
    {
        var country = text(ListField.Country);
        var place = new PublicPlace
        {
            Country = country,
            CountryCode = CountryCode.Of(text(ListField.CountryCode)) ?? CountryCode.Of(country) ?? "",
            StateProvince = text(ListField.StateProvince),
            County = text(ListField.County),
            Municipality = text(ListField.Municipality),
            Locality = FirstWritten(ListField.Locality, ListField.VerbatimLocality),
            Habitat = text(ListField.Habitat),
            Remarks = text(ListField.OccurrenceRemarks),
        };
        return Elevations(Uncertainty(Point(place)));
    }

    private PublicPlace Point(PublicPlace place)
    {
        var (latitude, longitude) = (text(ListField.DecimalLatitude), text(ListField.DecimalLongitude));
        var at = ListField.DecimalLatitude;
        if (latitude.Length + longitude.Length == 0)
        {
            (latitude, longitude) = (text(ListField.VerbatimLatitude), text(ListField.VerbatimLongitude));
            at = ListField.VerbatimLatitude;
        }

        var label = text(ListField.VerbatimCoordinates);
        var pair = latitude.Length + longitude.Length == 0;
        if (pair && label.Length == 0)
        {
            return place;
        }

        var read = pair ? Coordinates.Read(label) : Coordinates.Read(latitude, longitude);
        place = place with { CoordinatesVerbatim = label.Length > 0 ? label : Joined(latitude, longitude) };
        // The reading of two cells stops in the text of both, with two characters between them.
        if (!pair && !read.IsRead && read.Unreadable.Column > latitude.Length + 2)
        {
            Judge(read, LongitudeBeside(at), longitude);
        }
        else
        {
            Judge(read, pair ? ListField.VerbatimCoordinates : at, place.CoordinatesVerbatim);
        }

        if (!read.IsRead)
        {
            return place;
        }

        var point = Blurring.Of(read.Value, SensitivityCategory.NotSensitive);
        var datum = text(ListField.GeodeticDatum);
        return place with
        {
            Latitude = (double)point.Latitude,
            Longitude = (double)point.Longitude,
            CoordinatePrecision = (double)read.Value.Precision.Degrees,
            GeodeticDatum = datum.Length == 0
                ? ""
                : Datum.Read(datum) is { IsRead: true } known ? known.Value.Name : datum,
        };
    }

    private static ListField LongitudeBeside(ListField latitude) => latitude == ListField.DecimalLatitude
        ? ListField.DecimalLongitude
        : ListField.VerbatimLongitude;

    private PublicPlace Uncertainty(PublicPlace place)
    {
        var written = text(ListField.CoordinateUncertaintyInMeters);
        if (written.Length == 0 || place.Latitude is null)
        {
            return place;
        }

        var radius = UncertaintyRadius.Read(
            written, LengthOf(unit(ListField.CoordinateUncertaintyInMeters)) ?? LengthUnit.Metre);
        Judge(radius, ListField.CoordinateUncertaintyInMeters, written);
        return radius.IsRead ? place with { UncertaintyInMeters = (double)radius.Value.Meters } : place;
    }

    private PublicPlace Elevations(PublicPlace place)
    {
        var written = text(ListField.VerbatimElevation);
        if (written.Length > 0)
        {
            return Elevation(place, ListField.VerbatimElevation, written, LengthOf(unit(ListField.VerbatimElevation)));
        }

        var (low, high) = (text(ListField.MinimumElevationInMeters), text(ListField.MaximumElevationInMeters));
        if (low.Length + high.Length == 0)
        {
            return place;
        }

        var range = low.Length == 0 || high.Length == 0 || low == high
            ? low + (low == high ? "" : high)
            : $"{low}-{high}";
        return Elevation(place, ListField.MinimumElevationInMeters, range, LengthUnit.Metre);
    }

    private PublicPlace Elevation(PublicPlace place, ListField field, string written, LengthUnit? columnUnit)
    {
        var read = Localities.Elevation.Read(written, columnUnit);
        Judge(read, field, written);
        place = place with { ElevationVerbatim = WithUnit(written, columnUnit) };
        return read.IsRead
            ? place with
            {
                MinimumElevationInMeters = (double)read.Value.MinimumInMeters,
                MaximumElevationInMeters = (double)read.Value.MaximumInMeters,
            }
            : place;
    }

    // A bare number means nothing once it has left its column, so the heading's unit goes with it.
    private static string WithUnit(string written, LengthUnit? columnUnit) =>
        columnUnit is null || written.Any(char.IsLetter) || written.Contains('\'', StringComparison.Ordinal)
            ? written
            : $"{written} {(columnUnit == LengthUnit.Foot ? "ft" : "m")}";

    private void Judge<T>(Reading<T> reading, ListField field, string written)
    {
        if (reading.IsRead && reading.Question is null)
        {
            return;
        }

        // A grid reference is a good place that the program cannot read yet; it must not hold the sheet up.
        var blocks = !reading.IsRead && GridNotation.Recognise(written) is null;
        add(new(heading(field), written, reading.Unreadable?.Reason ?? reading.Question!, blocks));
    }

    private static LengthUnit? LengthOf(HeadingUnit? unit) => unit switch
    {
        HeadingUnit.Metre => LengthUnit.Metre,
        HeadingUnit.Foot => LengthUnit.Foot,
        HeadingUnit.Kilometre => LengthUnit.Kilometre,
        HeadingUnit.Mile => LengthUnit.Mile,
        _ => null,
    };

    private string FirstWritten(ListField first, ListField second) =>
        text(first) is { Length: > 0 } written ? written : text(second);

    private static string Joined(string latitude, string longitude) =>
        string.Join(", ", new[] { latitude, longitude }.Where(half => half.Length > 0));
}
