using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Matching;
using Accession.Storage.Tables;

namespace Accession.Evaluation;

/// <summary>A row of a file as the program reads and compares it.</summary>
/// <param name="Id">What the file's labels call it.</param>
/// <param name="Signature">What is compared.</param>
/// <param name="Keys">Under which keys it is met.</param>
/// <param name="Text">The row for a person to look at.</param>
internal sealed record EvaluatedRecord(
    string Id, Signature Signature, IReadOnlyList<MatchKey> Keys, string Text)
{
    /// <summary>What two records are to each other, if they meet at all.</summary>
    public Comparison? Against(EvaluatedRecord other)
    {
        var met = Keys.Intersect(other.Keys, SameValue.Instance).ToList();
        return met.Count == 0 ? null
            : met.Exists(key => key.IsIdentity) ? Comparison.Between(Signature, other.Signature).AsRepeat()
            : Comparison.Between(Signature, other.Signature);
    }

    /// <summary>Reads every row of a file, or of every file of a folder.</summary>
    /// <param name="path">A CSV, TSV or XLSX file with a heading line; or a folder of .tsv files.</param>
    /// <param name="idHeading">The heading of the column that names the row; null to count the rows from 1.</param>
    /// <exception cref="UnreadableLineException">The file is no table, or has no such column.</exception>
    public static List<EvaluatedRecord> ReadAll(string path, string? idHeading) => Directory.Exists(path)
        ? [.. Directory.EnumerateFiles(path, "*.tsv").Where(HasId).Order().SelectMany(file =>
            ReadFile(file, idHeading))]
        : ReadFile(path, idHeading);

    private static bool HasId(string file) =>
        File.ReadLines(file).FirstOrDefault("").StartsWith("id\t", StringComparison.Ordinal);

    private static List<EvaluatedRecord> ReadFile(string path, string? idHeading)
    {
        var table = Tables.Open(path);
        var match = ColumnMatch.Propose(table.Headers);
        var id = idHeading is null ? -1 : table.Headers.ToList().IndexOf(idHeading);
        if (idHeading is not null && id < 0)
        {
            throw new UnreadableLineException($"{path} has no column {idHeading}.");
        }

        var reader = new ListReader(match, new(OrderOf(table, match), Today));
        List<EvaluatedRecord> records = [];
        foreach (var (index, row) in table.Rows().Index())
        {
            var reading = reader.Read(Cells(row));
            var signature = Signature.Of(reading);
            records.Add(new(
                id < 0 ? $"{index + 1}" : row.Cells.ElementAtOrDefault(id) ?? "",
                signature,
                [.. MatchKeys.Of(signature, IdentitiesOf(match, row, reading))],
                Shown(reading)));
        }

        return records;
    }

    private static DateOnly Today => DateOnly.FromDateTime(TimeProvider.System.GetUtcNow().UtcDateTime);

    // What a curator would answer: what the list proves, or what most of its dates prove.
    private static DayMonthOrder OrderOf(Table table, ColumnMatch match)
    {
        var reader = new ListReader(match, new(DayMonthOrder.Unsettled, Today));
        var tally = new OrderTally();
        foreach (var row in table.Rows())
        {
            var (evidence, text) = reader.OrderEvidence(Cells(row));
            tally = tally.With(row.Line, text, evidence);
        }

        return tally.Proven != DayMonthOrder.Unsettled ? tally.Proven
            : tally.ProvingDayFirst > tally.ProvingMonthFirst ? DayMonthOrder.DayFirst
            : DayMonthOrder.MonthFirst;
    }

    private static RowCells Cells(TableRow row) => new(row.Cells, row.DateColumns);

    private static Identities IdentitiesOf(ColumnMatch match, TableRow row, RowReading reading)
    {
        string At(ListField field) => match.Of(field) is [var column, ..] && column.Column < row.Cells.Count
            ? row.Cells[column.Column]
            : "";
        return new()
        {
            CatalogNumber = reading.Notes.OtherCatalogNumbers,
            InstitutionCode = At(ListField.InstitutionCode),
            CollectionCode = At(ListField.CollectionCode),
            OccurrenceID = At(ListField.OccurrenceID),
        };
    }

    private static string Shown(RowReading row) => string.Join(" · ",
        row.Notes.CollectorsVerbatim, row.Notes.RecordNumber, row.Notes.EventDate, row.Place.StateProvince,
        row.Place.County, row.Place.Locality.Length > 70 ? row.Place.Locality[..70] : row.Place.Locality,
        $"{row.Place.Latitude:0.####} {row.Place.Longitude:0.####}", row.Notes.NameVerbatim);

    private sealed class SameValue : IEqualityComparer<MatchKey>
    {
        public static SameValue Instance { get; } = new();

        public bool Equals(MatchKey one, MatchKey other) => one.Value == other.Value;

        public int GetHashCode(MatchKey key) => key.Value.GetHashCode();
    }
}
