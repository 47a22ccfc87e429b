using System.Buffers;

namespace Accession.Storage.Tables;

/// <summary>Takes out of a text what nobody can have meant.</summary>
internal static class CellText
{
    private const char Lost = '\uFFFD';

    /// <summary>Control characters, but for tab and line breaks, and the mark of a lost character.</summary>
    private static readonly SearchValues<char> Unwanted = SearchValues.Create(
    [
        .. Enumerable.Range(0, 0xA0).Select(c => (char)c)
            .Where(c => char.IsControl(c) && c is not ('\t' or '\n' or '\r')),
        Lost,
    ]);

    /// <summary>What spreadsheets show, and write into text files, where a formula came to nothing.</summary>
    private static readonly string[] FormulaErrors =
        ["#N/A", "#NAME?", "#REF!", "#VALUE!", "#DIV/0!", "#NUM!", "#NULL!", "#SPILL!", "#CALC!"];

    /// <summary>A text without control characters and formula errors. Fault says what was found, or is null.</summary>
    public static string Clean(string text, out string? fault)
    {
        if (text is ['#', ..] && FormulaErrors.Contains(text))
        {
            fault = $"The spreadsheet could not work out this cell and shows {text}; it was read as empty.";
            return "";
        }

        var at = text.AsSpan().IndexOfAny(Unwanted);
        if (at < 0)
        {
            fault = null;
            return text;
        }

        if (text[at] == Lost)
        {
            fault = "A letter was lost here before the list reached us; it stands as \uFFFD.";
            return text;
        }

        fault = $"An invisible character (code {(int)text[at]}) stands at place {at + 1}; it was read as a space.";
        return string.Create(text.Length, text, static (to, from) =>
        {
            for (var i = 0; i < to.Length; i++)
            {
                to[i] = Unwanted.Contains(from[i]) && from[i] != Lost ? ' ' : from[i];
            }
        }).Trim();
    }
}
