using System.Globalization;
using Accession.Core.Gatherings;

namespace Accession.Core.Matching;

/// <summary>Compares collecting dates.</summary>
internal static class DateComparison
{
    /// <summary>A stretch longer than this is no date but a default, in days.</summary>
    private const int LongestStretch = 800;

    /// <summary>"24-25 July" is as good as a day; a stretch of weeks is not. In days after the first.</summary>
    private const int LongestOuting = 3;

    /// <summary>How two dates stand to each other.</summary>
    public static FieldEvidence Between(DateMark one, DateMark other)
    {
        if (!one.IsPresent || !other.IsPresent || one.Days > LongestStretch || other.Days > LongestStretch)
        {
            return new(Agreement.Missing);
        }

        if (one == other)
        {
            // Two sheets with the same year and nothing finer agree in that, and in no day.
            return one.Precision == DatePrecision.Day && one.Days <= LongestOuting
                ? new(Agreement.Same)
                : new(Agreement.Near, Slip.SameCoarseDate);
        }

        if (one.From <= other.To && other.From <= one.To)
        {
            return IsDefault(one, other) || IsDefault(other, one)
                ? new(Agreement.Contradicts, Slip.DefaultDay)
                : new(Agreement.Near, Slip.CoarserDate);
        }

        if (one.IsDay && other.IsDay)
        {
            return new(Agreement.Contradicts, Days(one.From, other.From));
        }

        // A month beside a day of its neighbour; coarser dates have no other slip that could be told.
        var gap = one.From > other.To ? one.From - other.To : other.From - one.To;
        return gap <= 31 && one.Precision >= DatePrecision.Month && other.Precision >= DatePrecision.Month
            && one.Days <= 31 && other.Days <= 31
                ? new(Agreement.Contradicts, Slip.NeighbouringMonth)
                : new(Agreement.Contradicts, IsDefault(one, other) || IsDefault(other, one)
                    ? Slip.DefaultDay
                    : Slip.OtherDate);
    }

    /// <summary>How many whole years lie between two dates; 0 when one is missing or they meet.</summary>
    public static int YearsBetween(DateMark one, DateMark other)
    {
        if (!one.IsPresent || !other.IsPresent)
        {
            return 0;
        }

        var days = Math.Max(one.From - other.To, other.From - one.To);
        return days <= 0 ? 0 : (int)(days / 365.25);
    }

    private static Slip Days(int one, int other)
    {
        var (a, b) = (DateOnly.FromDayNumber(one), DateOnly.FromDayNumber(other));
        if (Math.Abs(one - other) == 1)
        {
            return Slip.OneDayApart;
        }

        if (a.Year == b.Year && a.Month == b.Day && a.Day == b.Month)
        {
            return Slip.DayAndMonthSwapped;
        }

        if (a.Month == b.Month && a.Day == b.Day)
        {
            return IsYearSlip(a.Year, b.Year) ? Slip.YearDigit : Slip.OtherDate;
        }

        if (a.Year == b.Year && (IsFirstOfYear(a) || IsFirstOfYear(b)))
        {
            return Slip.DefaultDay;
        }

        if (a.Day == b.Day)
        {
            var months = Math.Abs((a.Year * 12) + a.Month - (b.Year * 12) - b.Month);
            return months == 1 ? Slip.NeighbouringMonth : a.Year == b.Year ? Slip.OtherMonth : Slip.OtherDate;
        }

        return a.Year != b.Year || a.Month != b.Month ? Slip.OtherDate
            : a.Day == 1 || b.Day == 1 ? Slip.DefaultDay
            : IsDaySlip(a.Day, b.Day) ? Slip.DayDigit
            : Slip.OtherDate;
    }

    private static bool IsFirstOfYear(DateOnly day) => day is { Month: 1, Day: 1 };

    // 1 January beside a finer date of that year, or a year that is held as 1 January beside its month.
    private static bool IsDefault(DateMark coarse, DateMark fine) =>
        coarse.IsDay && !fine.IsDay && IsFirstOfYear(DateOnly.FromDayNumber(coarse.From))
        && fine.Precision == DatePrecision.Month
        && DateOnly.FromDayNumber(fine.From).Year == DateOnly.FromDayNumber(coarse.From).Year;

    private static bool IsYearSlip(int one, int other)
    {
        Span<char> a = stackalloc char[4];
        Span<char> b = stackalloc char[4];
        one.TryFormat(a, out _, "0000", CultureInfo.InvariantCulture);
        other.TryFormat(b, out _, "0000", CultureInfo.InvariantCulture);
        return Digits.AreOneOff(a, b);
    }

    private static bool IsDaySlip(int one, int other)
    {
        Span<char> a = stackalloc char[2];
        Span<char> b = stackalloc char[2];
        one.TryFormat(a, out _, "00", CultureInfo.InvariantCulture);
        other.TryFormat(b, out _, "00", CultureInfo.InvariantCulture);
        return Digits.AreOneOff(a, b);
    }
}
