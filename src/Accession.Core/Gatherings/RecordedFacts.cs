using System.Globalization;
using Accession.Core.Localities;
using Accession.Core.People;
using Accession.Core.Standards.Countries;
using Accession.Core.Texts;

namespace Accession.Core.Gatherings;

/// <summary>
/// The facts of a gathering as they stand. Each that can be corrected has one text that says all of it, and the facts
/// follow from the text; so an entry of a correction keeps two texts and can always be proved.
/// </summary>
/// <param name="Notes">The field notes.</param>
/// <param name="Place">Where it grew, as exactly as it is held.</param>
public sealed record RecordedFacts(FieldNotes Notes, PublicPlace Place)
{
    /// <summary>The text of a field; empty where nothing is known.</summary>
    /// <param name="field">The field.</param>
    public string Text(CorrectedField field) => field switch
    {
        CorrectedField.Collectors => Notes.RecordedBy,
        CorrectedField.Number => Notes.RecordNumber,
        CorrectedField.Date => Notes.EventDate,
        CorrectedField.AssociatedTaxa => Notes.AssociatedTaxa,
        CorrectedField.OtherNumbers => Notes.OtherCatalogNumbers,
        CorrectedField.Country => Place.Country,
        CorrectedField.StateProvince => Place.StateProvince,
        CorrectedField.County => Place.County,
        CorrectedField.GeodeticDatum => Place.GeodeticDatum,
        CorrectedField.Municipality => Place.Municipality,
        CorrectedField.Locality => Place.Locality,
        CorrectedField.Coordinates => Figures(Place.Latitude, Place.Longitude, Place.CoordinatePrecision),
        CorrectedField.Uncertainty => Figures(Place.UncertaintyInMeters),
        CorrectedField.Elevation => Figures(Place.MinimumElevationInMeters, Place.MaximumElevationInMeters),
        CorrectedField.Habitat => Place.Habitat,
        CorrectedField.Remarks => Place.Remarks,
        _ => throw new ArgumentOutOfRangeException(nameof(field)),
    };

    /// <summary>The facts with another text of a field, and everything that follows from it.</summary>
    /// <param name="field">The field.</param>
    /// <param name="text">A text that <see cref="Text"/> or <see cref="TypedFact"/> gave.</param>
    /// <exception cref="FormatException">The text is of another field.</exception>
    public RecordedFacts With(CorrectedField field, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return field switch
        {
            CorrectedField.Collectors => WithNotes(Notes with { RecordedBy = text, CollectorKey = KeyOf(text) }),
            CorrectedField.Number => WithNotes(Notes with { RecordNumber = text, NumberKey = NumberKeyOf(text) }),
            CorrectedField.Date => WithNotes(Dated(text)),
            CorrectedField.AssociatedTaxa => WithNotes(Notes with { AssociatedTaxa = text }),
            CorrectedField.OtherNumbers => WithNotes(Notes with { OtherCatalogNumbers = text }),
            CorrectedField.Country => WithPlace(
                Place with { Country = text, CountryCode = CountryCode.Of(text) ?? "" }),
            CorrectedField.StateProvince => WithPlace(Place with { StateProvince = text }),
            CorrectedField.County => WithPlace(Place with { County = text }),
            CorrectedField.GeodeticDatum => WithPlace(Place with { GeodeticDatum = text }),
            CorrectedField.Municipality => WithPlace(Place with { Municipality = text }),
            CorrectedField.Locality => WithPlace(Place with { Locality = text }),
            CorrectedField.Coordinates => WithPlace(At(Read(text, 3))),
            CorrectedField.Uncertainty => WithPlace(Place with { UncertaintyInMeters = Read(text, 1)[0] }),
            CorrectedField.Elevation => WithPlace(Between(Read(text, 2))),
            CorrectedField.Habitat => WithPlace(Place with { Habitat = text }),
            CorrectedField.Remarks => WithPlace(Place with { Remarks = text }),
            _ => throw new ArgumentOutOfRangeException(nameof(field)),
        };
    }

    /// <summary>The text of a field as somebody would type it: a date and figures with their units.</summary>
    /// <param name="field">The field.</param>
    /// <param name="text">Its text.</param>
    public static string AsTyped(CorrectedField field, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length == 0 ? "" : field switch
        {
            CorrectedField.Coordinates => string.Join(", ", text.Split(' ').Take(2)),
            CorrectedField.Uncertainty => $"{text} m",
            CorrectedField.Elevation => $"{string.Join('-', text.Split(' ').Distinct())} m",
            _ => text,
        };
    }

    /// <summary>The text of a field as people read it: a date in words.</summary>
    /// <param name="field">The field.</param>
    /// <param name="text">Its text.</param>
    public static string ForPeople(CorrectedField field, string text) =>
        field == CorrectedField.Date && text?.Length > 0
            ? CollectingDate.FromIso8601(text).ForPeople()
            : AsTyped(field, text ?? "");

    private RecordedFacts WithNotes(FieldNotes notes) => this with { Notes = notes };

    private RecordedFacts WithPlace(PublicPlace place) => this with { Place = place };

    private static string KeyOf(string collectors) => Collectors.Read(collectors) is { IsRead: true } read
        ? read.Value.Persons is [var first, ..] ? first.FamilyKey : Folding.Fold(read.Value.Group)
        : "";

    private static string NumberKeyOf(string number) =>
        CollectorNumber.Read(number) is { IsRead: true, Value.IsWithoutNumber: false } read ? read.Value.Key : "";

    private FieldNotes Dated(string iso)
    {
        var date = iso.Length == 0 ? (CollectingDate?)null : CollectingDate.FromIso8601(iso);
        return Notes with { EventDate = iso, Year = date?.Year, Month = date?.Month, Day = date?.Day };
    }

    private PublicPlace At(double?[] point) =>
        Place with { Latitude = point[0], Longitude = point[1], CoordinatePrecision = point[2] };

    private PublicPlace Between(double?[] heights) =>
        Place with { MinimumElevationInMeters = heights[0], MaximumElevationInMeters = heights[1] };

    // As exactly as they are held; nothing where the first is missing.
    internal static string Figures(params double?[] figures) => figures[0] is null
        ? ""
        : string.Join(' ', figures.Where(f => f is not null)
            .Select(f => f!.Value.ToString("R", CultureInfo.InvariantCulture)));

    private static double?[] Read(string text, int count)
    {
        var figures = text.Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .Select(figure => (double?)double.Parse(figure, CultureInfo.InvariantCulture));
        return [.. figures.Concat(Enumerable.Repeat<double?>(null, count)).Take(count)];
    }
}
