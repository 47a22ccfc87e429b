using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>
/// When a plant was collected: a day, a month, a year, or a stretch between two of them, as finely as it was written
/// and no finer. It is the collector's local date and never passes through a time zone. What was written is kept beside
/// it, in the <see cref="Reading{T}"/>, so that two spellings of one date compare equal.
/// </summary>
/// <remarks>The default value is the year 1; a date that is not known is a null <see cref="CollectingDate"/>.</remarks>
public readonly record struct CollectingDate
{
    private const string MonthNames = "JanFebMarAprMayJunJulAugSepOctNovDec";

    private readonly PartialDate _start;
    private readonly PartialDate _end;

    internal CollectingDate(PartialDate start, PartialDate end)
    {
        _start = start;
        _end = end;
    }

    /// <summary>The first day on which it can have been collected.</summary>
    public DateOnly Earliest => _start.Earliest;

    /// <summary>The last day on which it can have been collected; the same as the first for a full date.</summary>
    public DateOnly Latest => _end.Latest;

    /// <summary>How finely the date was written; for a range, the coarser of its two ends.</summary>
    public DatePrecision Precision => (DatePrecision)Math.Min((int)_start.Precision, (int)_end.Precision);

    /// <summary>Whether it was written as a stretch from one date to another.</summary>
    public bool IsRange => _start != _end;

    /// <summary>The year, as <c>dwc:year</c>; null when the range crosses a New Year.</summary>
    public int? Year => _start.Year == _end.Year ? _start.Year : null;

    /// <summary>
    /// The month, 1 to 12, as <c>dwc:month</c>; null when it is not known or the range crosses months.
    /// </summary>
    public int? Month => Year is not null && _start.Month == _end.Month && _start.Month != 0 ? _start.Month : null;

    /// <summary>The day of the month, as <c>dwc:day</c>; null when it is not known or the range crosses days.</summary>
    public int? Day => !IsRange && _start.Day != 0 ? _start.Day : null;

    /// <summary>The day of the year of the first day, 1 to 366; null when that day is not known.</summary>
    public int? StartDayOfYear => _start.Day != 0 ? Earliest.DayOfYear : null;

    /// <summary>The day of the year of the last day, 1 to 366; null when that day is not known.</summary>
    public int? EndDayOfYear => _end.Day != 0 ? Latest.DayOfYear : null;

    /// <summary>Some time in a year.</summary>
    /// <param name="year">The year, 1 to 9999.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such year.</exception>
    public static CollectingDate InYear(int year) => One(new(year));

    /// <summary>Some time in a month.</summary>
    /// <param name="year">The year, 1 to 9999.</param>
    /// <param name="month">The month, 1 to 12.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such month.</exception>
    public static CollectingDate InMonth(int year, int month)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(month, 1);
        return One(new(year, month));
    }

    /// <summary>On one day.</summary>
    /// <param name="day">The day, in the collector's place.</param>
    public static CollectingDate On(DateOnly day) => One(new(day.Year, day.Month, day.Day));

    /// <summary>From the beginning of one date to the end of another, each as fine as it is.</summary>
    /// <param name="first">Where the range begins.</param>
    /// <param name="last">Where it ends.</param>
    /// <exception cref="ArgumentException">It would end before it begins.</exception>
    public static CollectingDate Between(CollectingDate first, CollectingDate last) => last.Latest < first.Earliest
        ? throw new ArgumentException("A collecting date cannot end before it begins.", nameof(last))
        : new(first._start, last._end);

    /// <summary>
    /// Reads a date as written on a label or in a list, in one of seven languages, with names, roman months or numbers.
    /// What is missing stays missing; a date that could be two days is not read.
    /// </summary>
    /// <param name="verbatim">The text to the letter.</param>
    /// <param name="order">The order of day and month that was settled for this list.</param>
    /// <param name="latest">
    /// The last day it can be, such as the day the list was received. A date after it is read with a question. A year
    /// of two digits becomes the latest year that keeps the date from lying after that day, again with a question;
    /// without this parameter it is not read.
    /// </param>
    public static Reading<CollectingDate> Read(
        string verbatim, DayMonthOrder order = DayMonthOrder.Unsettled, DateOnly? latest = null)
    {
        ArgumentNullException.ThrowIfNull(verbatim);
        return CollectingDateReader.Read(verbatim, order, latest);
    }

    /// <summary>
    /// What this one text says about the order of day and month. Asked of every row before a list is read, it tells
    /// whether the order is proved, contradictory, or must be asked for.
    /// </summary>
    /// <param name="verbatim">The text to the letter.</param>
    public static DayMonthEvidence OrderEvidence(string verbatim)
    {
        ArgumentNullException.ThrowIfNull(verbatim);
        return CollectingDateReader.OrderEvidence(verbatim);
    }

    /// <summary>Reads back what <see cref="ToIso8601"/> wrote.</summary>
    /// <param name="stored">A year, year-month or year-month-day, or two of them with a slash between.</param>
    /// <exception cref="FormatException">It is anything else.</exception>
    public static CollectingDate FromIso8601(string stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        var text = stored.AsSpan();
        var slash = text.IndexOf('/');
        var startText = slash < 0 ? text : text[..slash];
        var endText = slash < 0 ? text : text[(slash + 1)..];
        return TryReadIso(startText, out var start) && TryReadIso(endText, out var end)
            && start.Earliest <= end.Latest
                ? new(start, end)
                : throw new FormatException("A stored collecting date is not in the form that was written.");
    }

    /// <summary>The date for <c>dwc:eventDate</c>, ISO 8601: 1907-08, 1947-07-24/1947-07-25.</summary>
    public string ToIso8601() => IsRange ? $"{_start.ToIso8601()}/{_end.ToIso8601()}" : _start.ToIso8601();

    /// <summary>The date for people: 5 Mar 2026, Aug 1907, 24–25 Jul 1947.</summary>
    public string ForPeople()
    {
        if (!IsRange)
        {
            return Words(_start, withMonth: true, withYear: true);
        }

        var sameYear = _start.Year == _end.Year;
        // A month or a day may be left out at the beginning only if something finer still stands there.
        var shareYear = sameYear && _start.Month != 0;
        var shareMonth = shareYear && _start.Month == _end.Month && _start.Day != 0 && _end.Day != 0;
        var first = Words(_start, withMonth: !shareMonth, withYear: !shareYear);
        var dash = first.Contains(' ', StringComparison.Ordinal) ? " – " : "–";
        return first + dash + Words(_end, withMonth: true, withYear: true);
    }

    /// <summary>Whether both can mean the same day.</summary>
    /// <param name="other">The other date.</param>
    public bool Overlaps(CollectingDate other) => Earliest <= other.Latest && other.Earliest <= Latest;

    /// <summary>
    /// Orders by the first possible day, then by the last, so that a day stands before its month; for sorting.
    /// </summary>
    /// <param name="one">A date.</param>
    /// <param name="other">The date it is compared with.</param>
    /// <returns>Less than 0 when <paramref name="one"/> stands first, more than 0 when it stands last.</returns>
    public static int InOrder(CollectingDate one, CollectingDate other)
    {
        var byStart = one.Earliest.CompareTo(other.Earliest);
        return byStart != 0 ? byStart : one.Latest.CompareTo(other.Latest);
    }

    /// <summary>The date in ISO 8601, as <see cref="ToIso8601"/>.</summary>
    public override string ToString() => ToIso8601();

    internal static bool TryReadIso(ReadOnlySpan<char> text, out PartialDate date)
    {
        date = default;
        if (text.Length is not (4 or 7 or 10) || !TryDigits(text[..4], out var year) || year == 0)
        {
            return false;
        }

        int month = 0, day = 0;
        if (text.Length >= 7 && !(text[4] == '-' && TryDigits(text[5..7], out month) && month is >= 1 and <= 12))
        {
            return false;
        }

        if (text.Length == 10 && !(text[7] == '-' && TryDigits(text[8..], out day)
            && day >= 1 && day <= DateTime.DaysInMonth(year, month)))
        {
            return false;
        }

        date = new(year, month, day);
        return true;
    }

    private static bool TryDigits(ReadOnlySpan<char> text, out int value)
    {
        value = 0;
        foreach (var c in text)
        {
            if (!char.IsAsciiDigit(c))
            {
                return false;
            }

            value = (value * 10) + (c - '0');
        }

        return true;
    }

    private static CollectingDate One(PartialDate date) => new(date, date);

    private static string Words(PartialDate date, bool withMonth, bool withYear)
    {
        var day = date.Day == 0 ? "" : date.Day.ToString(CultureInfo.InvariantCulture);
        var month = withMonth && date.Month != 0 ? MonthNames.Substring((date.Month - 1) * 3, 3) : "";
        var year = withYear ? date.Year.ToString("0000", CultureInfo.InvariantCulture) : "";
        return string.Join(' ', new[] { day, month, year }.Where(part => part.Length > 0));
    }
}
