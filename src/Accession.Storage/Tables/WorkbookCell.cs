using System.Globalization;
using System.Text.RegularExpressions;

namespace Accession.Storage.Tables;

/// <summary>
/// The text that a person sees in a spreadsheet's cell. The file holds something else: every number as a binary
/// fraction, every date as a count of days, and how much of it is shown only in the format beside it.
/// </summary>
/// <param name="Text">The text.</param>
/// <param name="IsDate">Whether the spreadsheet holds it as a date.</param>
/// <param name="Remark">What a person should know; null when nothing.</param>
internal readonly partial record struct WorkbookCell(string Text, bool IsDate, string? Remark)
{
    /// <summary>The text of a value as the workbook holds it.</summary>
    /// <param name="value">The value; null for an empty cell.</param>
    /// <param name="format">The number format beside it; null when there is none.</param>
    public static WorkbookCell Of(object? value, string? format) => value switch
    {
        null => new("", false, null),
        string text => new(text.Trim(), false, null),
        double number => new(TextOf(number, format), false, null),
        DateTime date => OfDate(date, format ?? ""),
        TimeSpan time => new(time.ToString("c", CultureInfo.InvariantCulture), false, null),
        bool truth => new(truth ? "TRUE" : "FALSE", false, null),
        _ => new(Convert.ToString(value, CultureInfo.InvariantCulture)?.Trim() ?? "", false, null),
    };

    /// <summary>
    /// Fifteen digits, as spreadsheets show them, and never an exponent. A format of zeros and quoted letters
    /// makes leading zeros and prefixes: 812 in <c>"KB-"00000</c> is seen as KB-00812.
    /// </summary>
    private static string TextOf(double number, string? format)
    {
        if (format is not null && number >= 0 && number == Math.Floor(number) && number < 1e15
            && ZerosAndLetters().IsMatch(format))
        {
            return number.ToString(format, CultureInfo.InvariantCulture);
        }

        var shown = number.ToString("G15", CultureInfo.InvariantCulture);
        if (!shown.Contains('E', StringComparison.Ordinal))
        {
            return shown;
        }

        return decimal.TryParse(shown, NumberStyles.Float, CultureInfo.InvariantCulture, out var exact) && exact != 0
            ? exact.ToString("0.#############################", CultureInfo.InvariantCulture)
            : number.ToString("R", CultureInfo.InvariantCulture);
    }

    /// <summary>
    /// An ISO date, no more precise than what is shown: "March 2024" typed into a spreadsheet becomes the first
    /// of March, and "17 Mar" becomes the seventeenth of March of the year in which it was typed.
    /// </summary>
    private static WorkbookCell OfDate(DateTime date, string format)
    {
        var letters = NotLetters().Replace(format, "").ToUpperInvariant();
        var (year, day, hour) = (letters.Contains('Y'), letters.Contains('D'), letters.Contains('H'));
        if (hour && !year && !day && date.Year < 1901)
        {
            return new(date.ToString("HH:mm", CultureInfo.InvariantCulture), false, null);
        }

        var shown = day || hour || !year ? "yyyy-MM-dd" : letters.Contains('M') ? "yyyy-MM" : "yyyy";
        var time = date.TimeOfDay == TimeSpan.Zero ? "" : date.Second == 0 ? "'T'HH:mm" : "'T'HH:mm:ss";
        var remark = day && !year
            ? "The cell shows a day without a year; the year is the spreadsheet's, perhaps that of the typing."
            : null;
        return new(date.ToString(shown + time, CultureInfo.InvariantCulture), true, remark);
    }

    [GeneratedRegex("""^("[^"{}]*"|\\.|[-/ ])*0+$""")]
    private static partial Regex ZerosAndLetters();

    /// <summary>Quoted text, escaped letters, and colours, languages and conditions in brackets.</summary>
    [GeneratedRegex("""("[^"]*"|\\.|\[[^\]]*\])""")]
    private static partial Regex NotLetters();
}
