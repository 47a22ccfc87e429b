using System.Globalization;

namespace Accession.Core.Gatherings;

/// <summary>
/// One end of a collecting date: a year, with a month and a day as far as they are known. An unknown month or day is
/// 0; a day without a month does not occur.
/// </summary>
internal readonly record struct PartialDate
{
    private readonly ushort _year;
    private readonly byte _month;
    private readonly byte _day;

    /// <exception cref="ArgumentOutOfRangeException">There is no such year, month or day.</exception>
    public PartialDate(int year, int month = 0, int day = 0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(year, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(year, 9999);
        ArgumentOutOfRangeException.ThrowIfNegative(month);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(month, 12);
        ArgumentOutOfRangeException.ThrowIfNegative(day);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(day, month == 0 ? 0 : DateTime.DaysInMonth(year, month));
        _year = (ushort)year;
        _month = (byte)month;
        _day = (byte)day;
    }

    // The default of the struct is the year 1, as the default of DateOnly is its first day.
    public int Year => Math.Max((int)_year, 1);

    public int Month => _month;

    public int Day => _day;

    public DatePrecision Precision => _day != 0 ? DatePrecision.Day
        : _month != 0 ? DatePrecision.Month
        : DatePrecision.Year;

    public DateOnly Earliest => new(Year, Math.Max(Month, 1), Math.Max(Day, 1));

    public DateOnly Latest
    {
        get
        {
            var month = Month == 0 ? 12 : Month;
            return new(Year, month, Day == 0 ? DateTime.DaysInMonth(Year, month) : Day);
        }
    }

    public string ToIso8601() => Precision switch
    {
        DatePrecision.Day => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}-{Month:00}-{Day:00}"),
        DatePrecision.Month => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}-{Month:00}"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}"),
    };
}
