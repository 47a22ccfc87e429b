using System.Text.Encodings.Web;
using System.Text.Json;

namespace Accession.Core.Batches;

/// <summary>
/// The cells of a row to the letter, and which of them a spreadsheet had typed as dates: such a cell shows a date that
/// nobody may have written, and a collector number in it must not be believed.
/// </summary>
/// <param name="Cells">The texts, in the order of the headings.</param>
/// <param name="DateColumns">The columns, from 0, whose cell was typed as a date.</param>
public sealed record RowCells(IReadOnlyList<string> Cells, IReadOnlyList<int> DateColumns)
{
    private const string DateMark = "date";

    private static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>As it is stored: a list of texts; a cell typed as a date is an object of one field, "date".</summary>
    public string ToJson()
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, Plain))
        {
            json.WriteStartArray();
            for (var column = 0; column < Cells.Count; column++)
            {
                if (DateColumns.Contains(column))
                {
                    json.WriteStartObject();
                    json.WriteString(DateMark, Cells[column]);
                    json.WriteEndObject();
                }
                else
                {
                    json.WriteStringValue(Cells[column]);
                }
            }

            json.WriteEndArray();
        }

        return System.Text.Encoding.UTF8.GetString(buffer.GetBuffer(), 0, (int)buffer.Length);
    }

    /// <summary>Reads what <see cref="ToJson"/> wrote.</summary>
    /// <param name="json">The stored text.</param>
    /// <exception cref="JsonException">The text is not what was written.</exception>
    public static RowCells FromJson(string json)
    {
        using var document = JsonDocument.Parse(json);
        List<string> cells = [];
        List<int> dates = [];
        foreach (var cell in document.RootElement.EnumerateArray())
        {
            if (cell.ValueKind == JsonValueKind.Object)
            {
                dates.Add(cells.Count);
                cells.Add(cell.GetProperty(DateMark).GetString()!);
            }
            else
            {
                cells.Add(cell.GetString()!);
            }
        }

        return new(cells, dates);
    }
}
