using System.Runtime.InteropServices;
using Accession.Core.Gatherings;
using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What is compared of a collecting date: 7 bytes.</summary>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
internal readonly record struct DateMark
{
    private readonly byte _precision;   // 0 when there is no date, else the precision plus one

    private DateMark(int from, int days, DatePrecision precision) =>
        (From, Days, _precision) = (from, (ushort)Math.Min(days, ushort.MaxValue), (byte)((int)precision + 1));

    /// <summary>The first day it can be, as a day number; 0 when there is no date.</summary>
    public int From { get; }

    /// <summary>How many days later the last day is that it can be.</summary>
    public ushort Days { get; }

    /// <summary>The last day it can be, as a day number.</summary>
    public int To => From + Days;

    /// <summary>Whether there is a date.</summary>
    public bool IsPresent => _precision != 0;

    /// <summary>Whether it is one day.</summary>
    public bool IsDay => IsPresent && Days == 0;

    /// <summary>How finely it was written; a year when there is no date.</summary>
    public DatePrecision Precision => (DatePrecision)Math.Max(0, _precision - 1);

    /// <summary>The year, where the date lies in just one; null where it does not or there is none.</summary>
    public int? Year => IsPresent && YearOf(From) == YearOf(To) ? YearOf(From) : null;

    /// <summary>Whether any day it can be is of these years; there must be a date.</summary>
    public bool MeetsYears(CollectingYears years) => years.Meet(YearOf(From), YearOf(To));

    /// <summary>Reads a stored date.</summary>
    /// <param name="eventDate">ISO 8601 as it was written by this program; empty when not known.</param>
    public static DateMark Of(string eventDate)
    {
        if (eventDate.Length == 0)
        {
            return default;
        }

        var date = CollectingDate.FromIso8601(eventDate);
        var from = date.Earliest.DayNumber;
        return new(from, date.Latest.DayNumber - from, date.Precision);
    }

    private static int YearOf(int day) => DateOnly.FromDayNumber(day).Year;
}
