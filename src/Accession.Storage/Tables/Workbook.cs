using System.IO.Compression;
using System.Text;
using Accession.Core.Outcomes;
using ExcelDataReader;

namespace Accession.Storage.Tables;

/// <summary>Reads the first visible sheet of a workbook that has anything in it.</summary>
internal static class Workbook
{
    /// <summary>How many bytes of texts a workbook may have: the library holds them all at once.</summary>
    private const long MaximumSharedTexts = 512L << 20;

    // The library asks for Windows-1252 when it starts, though XLSX never needs it.
    static Workbook() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    /// <summary>Opens a workbook, unless it is damaged or would unpack to more than we read.</summary>
    public static Outcome<TableSource> Open(string path, TableLimits limits)
    {
        try
        {
            var (size, texts) = UnpackedSize(path);
            if (size > limits.MaximumUnpackedBytes || texts > MaximumSharedTexts)
            {
                return new Refusal(
                    RefusalKind.Invalid,
                    $"This workbook unpacks to {size / 1e6:N1} MB, which is more than is read "
                    + $"({limits.MaximumUnpackedBytes / 1e6:N0} MB, {MaximumSharedTexts / 1e6:N0} MB of texts). "
                    + "Save the list as CSV, or divide it.");
            }

            return Choose(path);
        }
        catch (Exception damage) when (IsDamage(damage))
        {
            return new Refusal(
                RefusalKind.Invalid, "This workbook is damaged. Open it in a spreadsheet, save it anew and send that.");
        }
    }

    /// <summary>
    /// What the parts of the workbook say they unpack to. They cannot lie: the framework stops unpacking a part
    /// at the size it declares.
    /// </summary>
    private static (long All, long SharedTexts) UnpackedSize(string path)
    {
        using var zip = ZipFile.OpenRead(path);
        return (
            zip.Entries.Sum(entry => entry.Length),
            zip.Entries.Where(entry => entry.Name == "sharedStrings.xml").Sum(entry => entry.Length));
    }

    private static Outcome<TableSource> Choose(string path)
    {
        using var reader = OpenReader(path);
        var (chosen, chosenName, at) = (-1, "", 0);
        IReadOnlyList<RawRow> upper = [];
        var others = new List<string>();
        do
        {
            var visible = reader.VisibleState == "visible";
            if (chosen < 0 && visible && Headings.UpperOf(Rows(reader)) is { Count: > 0 } found)
            {
                (chosen, chosenName, upper) = (at, reader.Name, found);
            }
            else
            {
                others.Add(visible ? reader.Name : $"{reader.Name} (hidden)");
            }

            at++;
        }
        while (reader.NextResult());

        if (chosen < 0)
        {
            return new Refusal(RefusalKind.Invalid, "There is nothing on the visible sheets of this workbook.");
        }

        TableProblem[] notes = others is []
            ? []
            : [new(1, null, null, string.Join(", ", others), $"Only the sheet {chosenName} is read; these are not.")];
        var errors = WorkbookErrors.Of(path, chosenName);
        return new TableSource(
            $"XLSX, sheet {chosenName}",
            "as in every workbook",
            [.. upper.Select(row => WithErrors(row, errors))],
            () => Rows(path, chosen, errors),
            notes,
            ReportsShortRows: false);
    }

    private static IExcelDataReader OpenReader(string path) => ExcelReaderFactory.CreateOpenXmlReader(
        new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read));

    private static IEnumerable<RawRow> Rows(
        string path, int sheet, IReadOnlyDictionary<(int Line, int Column), string> errors)
    {
        using var reader = OpenReader(path);
        for (var i = 0; i < sheet; i++)
        {
            reader.NextResult();
        }

        foreach (var row in Rows(reader))
        {
            yield return WithErrors(row, errors);
        }
    }

    private static IEnumerable<RawRow> Rows(IExcelDataReader reader)
    {
        for (var line = 1; ; line++)
        {
            var broken = false;
            try
            {
                if (!reader.Read())
                {
                    yield break;
                }
            }
            catch (Exception damage) when (IsDamage(damage))
            {
                broken = true;
            }

            if (broken)
            {
                yield return new(line, line, [])
                {
                    Refusal = "The workbook is damaged from here on: nothing behind this row could be read.",
                };
                yield break;
            }

            yield return RowOf(reader, line);
        }
    }

    /// <summary>Puts back what the library left out, as the text that a spreadsheet shows.</summary>
    private static RawRow WithErrors(RawRow row, IReadOnlyDictionary<(int Line, int Column), string> errors) =>
        errors.Count == 0 ? row : row with
        {
            Cells = [.. row.Cells.Select((cell, i) => errors.TryGetValue((row.Line, i), out var error) ? error : cell)],
        };

    private static RawRow RowOf(IExcelDataReader reader, int line)
    {
        var cells = new string[reader.FieldCount];
        List<(int, string, string)>? remarks = null;
        List<int>? dates = null;
        for (var i = 0; i < cells.Length; i++)
        {
            var value = reader.GetValue(i);
            var cell = WorkbookCell.Of(value, value is double or DateTime ? reader.GetNumberFormatString(i) : null);
            cells[i] = cell.Text;
            if (cell.IsDate)
            {
                (dates ??= []).Add(i);
            }

            if (cell.Remark is { } remark)
            {
                (remarks ??= []).Add((i, cell.Text, remark));
            }
        }

        return new(line, line, cells) { Remarks = remarks ?? [], DateColumns = dates ?? [] };
    }

    /// <summary>
    /// A sender's workbook may be damaged in any way, and the library answers with whatever it stumbles over; only
    /// the machine's own troubles pass through.
    /// </summary>
    private static bool IsDamage(Exception exception) =>
        exception is not (OutOfMemoryException or OperationCanceledException or UnauthorizedAccessException);
}
