using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Core.Specimens;

namespace Accession.Core.Batches;

/// <summary>
/// Reads the rows of a list by the meaning of its columns. One reader for each list; it keeps nothing of a row.
/// </summary>
public sealed class ListReader
{
    private const int MostSheets = 500;

    private readonly Dictionary<ListField, List<MatchedColumn>> _columns;
    private readonly ListSettings _settings;
    private readonly int? _history;

    /// <summary>Prepares for a list.</summary>
    /// <param name="match">What each column means.</param>
    /// <param name="settings">What was settled for the list.</param>
    public ListReader(ColumnMatch match, ListSettings settings)
    {
        _settings = settings;
        _history = match.Columns.FirstOrDefault(column => column.Heading == IdentificationHistory.Heading)?.Column;
        _columns = match.Columns
            .Where(column => column.Field is not null)
            .GroupBy(column => column.Field!)
            .ToDictionary(group => group.Key, group => group.ToList());
    }

    /// <summary>Reads a row. It never fails: what cannot be read is among the faults.</summary>
    /// <param name="cells">The cells in the order of the columns.</param>
    public RowReading Read(RowCells cells)
    {
        var row = new Row(this, cells);
        var notes = NamesOf(row, NumbersOf(row, CollectorsOf(row, DatesOf(row, new FieldNotes()))));
        var place = new PlaceReader(row.Text, row.HeadingOf, row.UnitOf, row.Add).Read();
        JudgeHistory(row, cells);
        var number = "";
        if (_settings.CarriesNumbers)
        {
            (number, notes) = NumberOnSheet(row, notes);
        }

        var sheets = _settings.CarriesNumbers ? OneSheet(row) : SheetsOf(row);
        if (notes.CollectorsVerbatim.Length + notes.RecordNumber.Length + notes.NameVerbatim.Length
            + place.Locality.Length + number.Length == 0)
        {
            row.Add(new("", "", "Nothing in this row says what it is: no collector, number, name or place.", true));
        }

        return new(notes, place, sheets, row.Faults) { CatalogNumber = number };
    }

    /// <summary>What makes a row this very record, whatever it says of the plant.</summary>
    /// <param name="cells">The cells in the order of the columns.</param>
    /// <param name="sourceId">Who sent the list; null when that does not matter.</param>
    /// <param name="identity">The row's content, as <see cref="RowIdentity"/> gives it; empty when unknown.</param>
    public Identities IdentitiesOf(RowCells cells, long? sourceId = null, string identity = "")
    {
        var row = new Row(this, cells);
        return new()
        {
            CatalogNumber = row.Text(
                _settings.CarriesNumbers ? ListField.CatalogNumber : ListField.OtherCatalogNumbers),
            InstitutionCode = row.Text(ListField.InstitutionCode),
            CollectionCode = row.Text(ListField.CollectionCode),
            OccurrenceID = row.Text(ListField.OccurrenceID),
            SourceId = sourceId,
            RowContent = identity,
        };
    }

    /// <summary>
    /// What the dates of a row prove about the order of day and month in its list, with the text that does.
    /// </summary>
    /// <param name="cells">The cells in the order of the columns.</param>
    public (DayMonthEvidence Evidence, string Text) OrderEvidence(RowCells cells)
    {
        var (_, text) = DateText(new Row(this, cells));
        return text.Length == 0 ? (DayMonthEvidence.None, "") : (CollectingDate.OrderEvidence(text), text);
    }

    private FieldNotes DatesOf(Row row, FieldNotes notes)
    {
        var (field, text) = DateText(row);
        var label = row.Text(ListField.VerbatimEventDate);
        notes = notes with { DateVerbatim = label.Length > 0 ? label : text };
        if (text.Length == 0)
        {
            return notes;
        }

        var date = CollectingDate.Read(text, _settings.Order, _settings.ReceivedOn);
        row.Judge(date, field);
        return date.IsRead
            ? notes with
            {
                EventDate = date.Value.ToIso8601(),
                Year = date.Value.Year,
                Month = date.Value.Month,
                Day = date.Value.Day,
            }
            : notes;
    }

    private static (ListField Field, string Text) DateText(Row row)
    {
        var first = row.Text(ListField.EventDate);
        if (first.Length > 0)
        {
            var last = row.Text(ListField.EventDateEnd);
            return (ListField.EventDate, last.Length > 0 && last != first ? $"{first}/{last}" : first);
        }

        var parts = new[] { ListField.Day, ListField.Month, ListField.Year }.Select(row.Text).Where(t => t.Length > 0);
        var composed = string.Join(' ', parts);
        return row.Text(ListField.VerbatimEventDate) is { Length: > 0 } label && composed.Length == 0
            ? (ListField.VerbatimEventDate, label)
            : (ListField.Year, Composed(row, composed));
    }

    // Day, month and year in columns of their own, all in figures, are in no doubt: they say which is which.
    private static string Composed(Row row, string words)
    {
        var (day, month, year) = (row.Text(ListField.Day), row.Text(ListField.Month), row.Text(ListField.Year));
        return year.Length == 4 && IsFigures(year) && IsFigures(month) && (day.Length == 0 || month.Length > 0)
            && IsFigures(day)
            ? string.Join(
                '-', new[] { year, month.PadLeft(2, '0'), day.PadLeft(2, '0') }.Where(p => p.Trim('0').Length > 0))
            : words;
    }

    private static bool IsFigures(string text) => text.Length <= 4 && text.All(char.IsAsciiDigit);

    private static FieldNotes CollectorsOf(Row row, FieldNotes notes)
    {
        var companions = row.Text(ListField.OtherCollectors);
        var text = row.Text(ListField.RecordedBy);
        text = companions.Length == 0 ? text : text.Length == 0 ? companions : $"{text}; {companions}";
        notes = notes with { CollectorsVerbatim = text };
        if (text.Length == 0)
        {
            row.Add(new(row.HeadingOf(ListField.RecordedBy), "", "No collector is written.", false));
            return notes;
        }

        var read = Collectors.Read(text);
        row.Judge(read, ListField.RecordedBy);
        return read.IsRead
            ? notes with
            {
                RecordedBy = read.Value.ToString() is { Length: > 0 } named ? named : text,
                CollectorKey = read.Value.Persons is [var first, ..]
                    ? first.FamilyKey
                    : Texts.Folding.Fold(read.Value.Group),
                RecordNumber = read.Value.NumberInText,
            }
            : notes with { RecordedBy = text };
    }

    // The sheet does not stand or fall with it: all of it is kept, and what becomes no determination is said.
    private void JudgeHistory(Row row, RowCells cells)
    {
        if (_history is not { } column || column >= cells.Cells.Count)
        {
            return;
        }

        foreach (var listed in IdentificationHistory.Read(cells.Cells[column]))
        {
            if (listed.Name.Length == 0)
            {
                row.Add(new(IdentificationHistory.Heading, listed.Remarks,
                    "A row of the identification history has no name. It is kept here, and becomes no determination.",
                    false));
            }
            else if (listed.DateProblem is { } problem)
            {
                row.Add(new(IdentificationHistory.Heading, listed.DateVerbatim, problem, false));
            }
        }
    }

    private static FieldNotes NumbersOf(Row row, FieldNotes notes)
    {
        var field = row.Text(ListField.RecordNumber).Length > 0 ? ListField.RecordNumber : ListField.FieldNumber;
        var text = row.Text(field);
        if (text.Length == 0)
        {
            text = notes.RecordNumber;   // some lists write the number behind the collector
        }

        if (text.Length == 0)
        {
            return notes;
        }

        notes = notes with { RecordNumber = text };
        if (row.IsTypedAsDate(field))
        {
            row.Add(new(row.HeadingOf(field), text,
                "The spreadsheet took this number for a date. Ask for the number on the label.", true));
            return notes;
        }

        var number = CollectorNumber.Read(text);
        row.Judge(number, field);
        return number.IsRead ? notes with { NumberKey = number.Value.IsWithoutNumber ? "" : number.Value.Key } : notes;
    }

    private FieldNotes NamesOf(Row row, FieldNotes notes)
    {
        var dated = row.Text(ListField.DateIdentified);
        var date = dated.Length == 0
            ? default
            : CollectingDate.Read(dated, _settings.Order, _settings.ReceivedOn);
        if (dated.Length > 0 && !date.IsRead)
        {
            // When it was named is not what the sheet stands or falls with: kept to the letter, and said.
            row.Add(new(row.HeadingOf(ListField.DateIdentified), dated, date.Unreadable.Reason, false));
        }

        return notes with
        {
            NameVerbatim = row.Text(ListField.ScientificName) is { Length: > 0 } name ? name : NameFromParts(row),
            IdentificationQualifier = row.Text(ListField.IdentificationQualifier),
            Family = row.Text(ListField.Family),
            IdentifiedBy = row.Text(ListField.IdentifiedBy),
            DateIdentifiedVerbatim = dated,
            DateIdentified = dated.Length > 0 && date.IsRead ? date.Value.ToIso8601() : "",
            AssociatedTaxa = row.Text(ListField.AssociatedTaxa),
            OtherCatalogNumbers = row.Text(ListField.OtherCatalogNumbers),
        };
    }

    // Under the acronym of another herbarium the number is what that herbarium is cited by.
    private (string Number, FieldNotes Notes) NumberOnSheet(Row row, FieldNotes notes)
    {
        var read = BorneNumber.Read(row.Text(ListField.CatalogNumber));
        row.Judge(read, ListField.CatalogNumber);
        if (!read.IsRead)
        {
            return ("", notes);
        }

        var acronym = row.Text(ListField.InstitutionCode) is { Length: > 0 } code
            ? code
            : row.Text(ListField.CollectionCode);
        var isOurs = acronym.Length == 0
            || _settings.OwnAcronyms.Contains(acronym, StringComparer.OrdinalIgnoreCase);
        string[] numbers = isOurs
            ? [notes.OtherCatalogNumbers]
            : [$"{acronym}:{read.Value}", notes.OtherCatalogNumbers];
        return (read.Value, notes with
        {
            OtherCatalogNumbers = string.Join(" | ", numbers.Where(other => other.Length > 0)),
        });
    }

    // A sheet that bears its number is one, whatever the list says of duplicates that were made of it.
    private static int OneSheet(Row row)
    {
        var text = row.Text(ListField.Sheets);
        if (text.Length > 0 && text != "1")
        {
            row.Add(new(row.HeadingOf(ListField.Sheets), text,
                "One number is one specimen: taken over as one sheet. Others of the gathering have rows of their own.",
                false));
        }

        return 1;
    }

    private static string NameFromParts(Row row) => string.Join(' ', new[]
    {
        ListField.Genus, ListField.SpecificEpithet, ListField.TaxonRank, ListField.InfraspecificEpithet,
        ListField.ScientificNameAuthorship,
    }.Select(row.Text).Where(text => text.Length > 0));

    private static int SheetsOf(Row row)
    {
        var text = row.Text(ListField.Sheets);
        if (text.Length == 0)
        {
            return 1;
        }

        if (int.TryParse(text, out var sheets) && sheets is >= 1 and <= MostSheets)
        {
            return sheets;
        }

        row.Add(new(row.HeadingOf(ListField.Sheets), text,
            $"How many sheets? Write a whole number from 1 to {MostSheets}; counted as one.", true));
        return 1;
    }

    /// <summary>A row while it is read.</summary>
    private sealed class Row(ListReader reader, RowCells cells)
    {
        public List<RowFault> Faults { get; } = [];

        public string Text(ListField field)
        {
            if (!reader._columns.TryGetValue(field, out var columns))
            {
                return "";
            }

            return columns is [var only]
                ? At(only.Column)
                : string.Join("; ", columns.Select(column => At(column.Column)).Where(text => text.Length > 0));
        }

        public string HeadingOf(ListField field) =>
            reader._columns.TryGetValue(field, out var columns) ? columns[0].Heading : "";

        public HeadingUnit? UnitOf(ListField field) =>
            reader._columns.TryGetValue(field, out var columns) ? columns[0].Unit : null;

        public bool IsTypedAsDate(ListField field) => cells.DateColumns.Count > 0
            && reader._columns.TryGetValue(field, out var columns)
            && columns.Any(column => cells.DateColumns.Contains(column.Column));

        public void Add(RowFault fault) => Faults.Add(fault);

        public void Judge<T>(Reading<T> reading, ListField field)
        {
            if (!reading.IsRead)
            {
                Add(new(HeadingOf(field), reading.Verbatim, reading.Unreadable.Reason, true));
            }
            else if (reading.Question is not null)
            {
                Add(new(HeadingOf(field), reading.Verbatim, reading.Question, false));
            }
        }

        private string At(int column) => column < cells.Cells.Count ? cells.Cells[column].Trim() : "";
    }
}
