using System.Text;
using Accession.Core.Standards.DarwinCore;

namespace Accession.Storage.Databases.Archives;

/// <summary>
/// What is asked of either database for a file of an archive, and how the columns of its answer and the constant cells
/// stand in a line. Places come from the table of gatherings, which holds what everyone may know; the table of exact
/// places is not named here, and a test sees to it.
/// </summary>
internal sealed class ArchiveQuery
{
    // The join order is the order of the lines, so neither database has to sort: a specimen's determinations lie
    // together under the index of their key. What only denies a name is no identification.
    private const string FromSpecimens = """
        FROM specimen s
        JOIN gathering g ON g.id = s.gathering_id
        LEFT JOIN determination d ON d.id = COALESCE(s.current_determination_id,
            (SELECT min(id) FROM determination WHERE specimen_id = s.id))
        ORDER BY s.id
        """;

    private const string FromDeterminations = """
        FROM specimen s
        CROSS JOIN determination d
        WHERE d.specimen_id = s.id AND d.kind <> 'Rejection'
        ORDER BY s.id, d.id
        """;

    private ArchiveQuery(ArchiveCell[] cells, string from)
    {
        Cells = cells;
        Lines = $"SELECT {string.Join(", ", cells.Select(cell => cell.Sql).OfType<string>())}\n{from}";
    }

    /// <summary>The statement that answers with one row for each line.</summary>
    public string Lines { get; }

    /// <summary>The cells of a line from left to right.</summary>
    public ArchiveCell[] Cells { get; }

    public static ArchiveQuery For(ArchiveFile file, DatasetCells dataset) => new(
        [.. file.Columns.Select(column => Cell(column.Value, dataset))],
        IsHistory(file) ? FromDeterminations : FromSpecimens);

    /// <summary>The statement that counts the lines of a file.</summary>
    public static string CountOf(ArchiveFile file) =>
        $"SELECT count(*) FROM {(IsHistory(file) ? "determination WHERE kind <> 'Rejection'" : "specimen")}";

    private static bool IsHistory(ArchiveFile file) => file.RowType == IdentificationColumns.File.RowType;

    private static ArchiveCell Cell(PublishedValue value, DatasetCells dataset) => value switch
    {
        PublishedValue.OccurrenceId => Text("s.occurrence_id"),
        PublishedValue.License => Constant(dataset.License),
        PublishedValue.InstitutionCode => Constant(dataset.InstitutionCode),
        PublishedValue.CollectionCode => Constant(dataset.CollectionCode),
        PublishedValue.BasisOfRecord => Constant(OccurrenceColumns.PreservedSpecimen),
        PublishedValue.InformationWithheld => Text("g.information_withheld"),
        PublishedValue.DataGeneralizations => Text("g.data_generalizations"),
        PublishedValue.EventDate => Text("g.event_date"),
        PublishedValue.Year => Whole("g.year"),
        PublishedValue.Month => Whole("g.month"),
        PublishedValue.Day => Whole("g.day"),
        PublishedValue.VerbatimEventDate => Text("g.date_verbatim"),
        PublishedValue.Habitat => Text("g.habitat"),
        PublishedValue.Country => Text("g.country"),
        PublishedValue.CountryCode => Text("g.country_code"),
        PublishedValue.StateProvince => Text("g.state_province"),
        PublishedValue.County => Text("g.county"),
        PublishedValue.Municipality => Text("g.municipality"),
        PublishedValue.Locality => Text("g.locality"),
        PublishedValue.MinimumElevationInMeters => Number("g.minimum_elevation_in_meters"),
        PublishedValue.MaximumElevationInMeters => Number("g.maximum_elevation_in_meters"),
        PublishedValue.VerbatimElevation => Text("g.elevation_verbatim"),
        PublishedValue.DecimalLatitude => Number("g.latitude"),
        PublishedValue.DecimalLongitude => Number("g.longitude"),
        PublishedValue.GeodeticDatum => Text("g.geodetic_datum"),
        PublishedValue.CoordinateUncertaintyInMeters => Number("g.uncertainty_in_meters"),
        PublishedValue.CoordinatePrecision => Number("g.coordinate_precision"),
        PublishedValue.VerbatimCoordinates => Text("g.coordinates_verbatim"),
        PublishedValue.CatalogNumber => Text("s.catalog_number"),
        PublishedValue.OtherCatalogNumbers => Text("g.other_catalog_numbers"),
        PublishedValue.RecordNumber => Text("g.record_number"),
        PublishedValue.RecordedBy => Text("g.recorded_by"),
        PublishedValue.OccurrenceStatus => Constant(OccurrenceColumns.Present),
        PublishedValue.AssociatedTaxa => Text("g.associated_taxa"),
        PublishedValue.OccurrenceRemarks => Text("g.remarks"),
        PublishedValue.NomenclaturalCode => Constant(OccurrenceColumns.Nomenclature),
        _ => Named(value),
    };

    // Of the current determination in the core, of each one in the history.
    private static ArchiveCell Named(PublishedValue value) => value switch
    {
        PublishedValue.IdentificationId => Text("s.occurrence_id || '#' || d.id"),
        PublishedValue.VerbatimIdentification => Text("d.name"),
        PublishedValue.IdentificationQualifier => Text("d.qualifier"),
        PublishedValue.IdentifiedBy => Text("d.identified_by"),
        PublishedValue.DateIdentified => Text("d.date_identified"),
        PublishedValue.ScientificName => Text("d.name"),
        PublishedValue.Family => Text("d.family"),
        _ => throw new ArgumentOutOfRangeException(nameof(value), value, "Nobody says where this value is kept."),
    };

    private static ArchiveCell Text(string sql) => new(CellKind.Text, sql, []);

    private static ArchiveCell Whole(string sql) => new(CellKind.Whole, sql, []);

    private static ArchiveCell Number(string sql) => new(CellKind.Number, sql, []);

    private static ArchiveCell Constant(string text) =>
        new(CellKind.Constant, null, Encoding.UTF8.GetBytes(ArchiveLine.Cell(text)));
}

/// <summary>What a cell is made of.</summary>
internal enum CellKind
{
    /// <summary>The same in every line; the database is not asked.</summary>
    Constant,

    /// <summary>Text, by the rule of one line.</summary>
    Text,

    /// <summary>A whole number.</summary>
    Whole,

    /// <summary>A number with a fraction.</summary>
    Number,
}

/// <summary>A cell of a line.</summary>
internal sealed record ArchiveCell(CellKind Kind, string? Sql, byte[] Bytes);
