using System.Globalization;
using Accession.Core.Gatherings;

namespace Accession.Core.Tests.Gatherings;

public class CollectingDateTests
{
    private const string TwoVisits = "These are two visits, not one stretch of time; each needs its own gathering.";
    private const string DayCount =
        "It looks like a spreadsheet's count of days, which would be 10 Jun 2024; write the date itself.";

    private static readonly DateOnly Received = new(2026, 9, 30);

    [Theory]
    [InlineData("2026-06-14", "2026-06-14")]
    [InlineData("2026-6-4", "2026-06-04")]                       // without leading zeros, as spreadsheets write it
    [InlineData("2026-06", "2026-06")]
    [InlineData("2026", "2026")]
    [InlineData("20260614", "2026-06-14")]
    [InlineData("2026-06-14T23:30-07:00", "2026-06-14")]         // 15 June in UTC, but the collector's day is the 14th
    [InlineData("2026-06-14T06:30Z", "2026-06-14")]
    [InlineData("2026-06-14 23:30", "2026-06-14")]
    [InlineData("2026-06-14T00:00:00.000", "2026-06-14")]
    [InlineData("1947-07-24/1947-07-25", "1947-07-24/1947-07-25")]
    [InlineData("1947-07-24/25", "1947-07-24/1947-07-25")]       // ISO 8601: the end leaves out what it shares
    [InlineData("1947-07-24/08-02", "1947-07-24/1947-08-02")]
    [InlineData("1864-05/1877-10", "1864-05/1877-10")]
    [InlineData("1914/1916", "1914/1916")]
    [InlineData("2007-03-01T13:00:00Z/2008-05-11T15:30:00Z", "2007-03-01/2008-05-11")]
    [InlineData("1938-04-11 - 1938-04-11", "1938-04-11")]        // a range of one day is that day
    public void Reads_what_programs_write(string verbatim, string expected) => Reads(verbatim, expected);

    [Theory]
    [InlineData("14 Jun 2026", "2026-06-14")]
    [InlineData("14 June, 2026", "2026-06-14")]
    [InlineData("June 14, 2026", "2026-06-14")]
    [InlineData("May. 15, 1981", "1981-05-15")]
    [InlineData("15-May-1981", "1981-05-15")]
    [InlineData("19/May/1972", "1972-05-19")]
    [InlineData("1994 Mar 21", "1994-03-21")]
    [InlineData("1911; July 22", "1911-07-22")]
    [InlineData("27June 2014", "2014-06-27")]
    [InlineData("Sept. 1933", "1933-09")]
    [InlineData("Aug 1907", "1907-08")]
    [InlineData("May, 1934", "1934-05")]
    [InlineData("3rd June 1966", "1966-06-03")]
    [InlineData("March 1st 1957", "1957-03-01")]
    [InlineData("Sunday, 14 June 2026", "2026-06-14")]
    [InlineData("1 juillet 1991", "1991-07-01")]
    [InlineData("1er août 1977", "1977-08-01")]
    [InlineData("21 de julio de 1986", "1986-07-21")]
    [InlineData("1º de mayo de 2004", "2004-05-01")]
    [InlineData("Marzo 2002", "2002-03")]
    [InlineData("15 setembro 1999", "1999-09-15")]
    [InlineData("3 Março 1999", "1999-03-03")]
    [InlineData("7. März 1931", "1931-03-07")]
    [InlineData("9 maggio 1899", "1899-05-09")]
    [InlineData("12 Junii 1846", "1846-06-12")]
    [InlineData("28 Abr. 1996", "1996-04-28")]
    [InlineData("20 aou\u0302t 1977", "1977-08-20")]             // the accent as a character of its own
    public void Reads_named_months_in_seven_languages(string verbatim, string expected) => Reads(verbatim, expected);

    [Theory]
    [InlineData("14.VI.2026", "2026-06-14")]
    [InlineData("14. VI. 2026", "2026-06-14")]
    [InlineData("VI-14-2026", "2026-06-14")]
    [InlineData("V/19/1937", "1937-05-19")]
    [InlineData("17IV1934", "1934-04-17")]
    [InlineData("14 vi 2026", "2026-06-14")]
    [InlineData("30.X.1987", "1987-10-30")]
    [InlineData("X.1983", "1983-10")]
    public void Reads_roman_months(string verbatim, string expected) => Reads(verbatim, expected);

    [Theory]
    [InlineData("1999-03-XX", "1999-03")]
    [InlineData("1897-8-XX", "1897-08")]
    [InlineData("1999-00-00", "1999")]
    [InlineData("XX-6-2010", "2010-06")]
    [InlineData("?? May 1931", "1931-05")]
    [InlineData("7-1881", "1881-07")]
    [InlineData("3/ 1938", "1938-03")]
    public void Leaves_open_what_is_not_known(string verbatim, string expected) => Reads(verbatim, expected);

    [Theory]
    [InlineData("July 24-25, 1947", "1947-07-24/1947-07-25")]
    [InlineData("24-25 July 1947", "1947-07-24/1947-07-25")]
    [InlineData("24/25 July 1947", "1947-07-24/1947-07-25")]
    [InlineData("5-6.X.2011", "2011-10-05/2011-10-06")]
    [InlineData("14.-16.6.2026", "2026-06-14/2026-06-16")]
    [InlineData("14.-16. Juni 2026", "2026-06-14/2026-06-16")]
    [InlineData("21-23/enero/2003", "2003-01-21/2003-01-23")]
    [InlineData("3 a 5 de junio de 1988", "1988-06-03/1988-06-05")]
    [InlineData("June-July 1931", "1931-06/1931-07")]
    [InlineData("Oct 1937-Nov 1937", "1937-10/1937-11")]
    [InlineData("30 Apr-2 May 1988", "1988-04-30/1988-05-02")]
    [InlineData("April 30 – May 2, 1988", "1988-04-30/1988-05-02")]
    [InlineData("29 Jun 1921 - 03 Jul 1921", "1921-06-29/1921-07-03")]
    [InlineData("Jun 29 1921 to Jul 3 1921", "1921-06-29/1921-07-03")]
    [InlineData("28 Dec 1899 bis 3 Jan 1900", "1899-12-28/1900-01-03")]
    public void Reads_ranges(string verbatim, string expected) => Reads(verbatim, expected);

    [Theory]
    [InlineData("spring 1910", "1910", "season")]
    [InlineData("Early spring 1999", "1999", "season")]
    [InlineData("otoño 1931", "1931", "season")]
    [InlineData("winter 1910-11", "1910/1911", "years 1910 to 1911")]
    [InlineData("1914-15", "1914/1915", "years 1914 to 1915")]     // 15 is no month, so 1914-15 is not ISO 8601
    [InlineData("End of June 1923", "1923-06", "part of the time")]
    [InlineData("ca. 1910", "1910", "uncertain")]
    [InlineData("1957?", "1957", "uncertain")]
    [InlineData("[6 July 1992]", "1992-07-06", "brackets")]
    [InlineData("1840s", "1840/1849", "ten years")]
    [InlineData("Tuesday 14 June 2026", "2026-06-14", "was a Sunday")]
    [InlineData("7 & 8 Mar 1911", "1911-03-07/1911-03-08", "Two days")]
    [InlineData("7,8 Mar 1911", "1911-03-07/1911-03-08", "Two days")]
    [InlineData("14 Oct 2026", "2026-10-14", "after 30 Sep 2026")]
    public void Reads_with_a_question(string verbatim, string expected, string about)
    {
        var reading = CollectingDate.Read(verbatim, latest: Received);
        Assert.Equal(expected, reading.Value.ToIso8601());
        Assert.Contains(about, reading.Question, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("14 vi 26", "2026-06-14")]
    [InlineData("14 xi 26", "1926-11-14")]                       // 14 November 2026 lies after the day of receipt
    [InlineData("22-Mar-09", "2009-03-22")]
    [InlineData("June 14, 93", "1993-06-14")]
    [InlineData("Jun 19/22", "2022-06-19")]
    [InlineData("June 30 '53", "1953-06-30")]
    [InlineData("May '97", "1997-05")]
    [InlineData("May 98", "1998-05")]
    [InlineData("05/05/24", "2024-05-05")]
    [InlineData("94/05/03", "1994-05-03")]
    [InlineData("24-25 July 47", "1947-07-24/1947-07-25")]
    public void Takes_a_year_of_two_digits_for_the_latest_that_can_be_meant(string verbatim, string expected)
    {
        var reading = CollectingDate.Read(verbatim, latest: Received);
        Assert.Equal(expected, reading.Value.ToIso8601());
        Assert.Contains("The year is written", reading.Question, StringComparison.Ordinal);
    }

    [Fact]
    public void Does_not_guess_a_century_when_the_day_of_receipt_is_not_known()
    {
        var reading = CollectingDate.Read("14 vi 26");
        Assert.Equal(7, reading.Unreadable!.Column);
        Assert.Contains("century", reading.Unreadable.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("12/05/2024", DayMonthOrder.DayFirst, "2024-05-12")]
    [InlineData("12/05/2024", DayMonthOrder.MonthFirst, "2024-12-05")]
    [InlineData("3.1.2004", DayMonthOrder.DayFirst, "2004-01-03")]
    [InlineData("3 1 2004", DayMonthOrder.DayFirst, "2004-01-03")]
    [InlineData("4/19 1891", DayMonthOrder.Unsettled, "1891-04-19")]
    [InlineData("25/12/2024", DayMonthOrder.Unsettled, "2024-12-25")]
    [InlineData("05/05/2024", DayMonthOrder.Unsettled, "2024-05-05")]
    [InlineData("6/15/2016-6/16/2016", DayMonthOrder.Unsettled, "2016-06-15/2016-06-16")]
    [InlineData("5/17-7/4, 1896", DayMonthOrder.Unsettled, "1896-05-17/1896-07-04")]  // one end proves the other
    [InlineData("3/5-5/5/1931", DayMonthOrder.DayFirst, "1931-05-03/1931-05-05")]
    public void Reads_numbers_in_the_order_of_the_list(string verbatim, DayMonthOrder order, string expected) =>
        Assert.Equal(expected, CollectingDate.Read(verbatim, order).Value.ToIso8601());

    [Theory]
    [InlineData("12/05/24")]
    [InlineData("3/1/2004")]
    [InlineData("3.1.2004")]
    [InlineData("3-1-2004")]
    [InlineData("3/1-4/1, 2004")]
    public void Asks_for_the_order_instead_of_guessing_it(string verbatim)
    {
        var reading = CollectingDate.Read(verbatim, latest: Received);
        Assert.False(reading.IsRead);
        Assert.Equal(1, reading.Unreadable.Column);
        Assert.StartsWith("Day or month first? Settle the order for this list", reading.Unreadable.Reason,
            StringComparison.Ordinal);
        Assert.Equal(DayMonthEvidence.Either, CollectingDate.OrderEvidence(verbatim));
    }

    [Fact]
    public void Believes_a_date_that_contradicts_the_order_of_its_list_but_asks()
    {
        var reading = CollectingDate.Read("25/12/2024", DayMonthOrder.MonthFirst);
        Assert.Equal("2024-12-25", reading.Value.ToIso8601());
        Assert.Contains("against the order", reading.Question, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("25/12/2024", DayMonthEvidence.ProvesDayFirst)]
    [InlineData("25.12.24", DayMonthEvidence.ProvesDayFirst)]
    [InlineData("12/25/2024", DayMonthEvidence.ProvesMonthFirst)]
    [InlineData("12/05/24", DayMonthEvidence.Either)]
    [InlineData("05/05/24", DayMonthEvidence.None)]               // the same day both ways
    [InlineData("32/13/2024", DayMonthEvidence.None)]             // no day at all
    [InlineData("2024-12-05", DayMonthEvidence.None)]             // the year stands first
    [InlineData("12 May 2024", DayMonthEvidence.None)]
    [InlineData("94/05/03", DayMonthEvidence.None)]
    [InlineData("XX-6-2010", DayMonthEvidence.None)]
    [InlineData("no date here", DayMonthEvidence.None)]
    [InlineData("6/15/2016-6/16/2016", DayMonthEvidence.ProvesMonthFirst)]
    public void Knows_what_a_date_says_about_the_order(string verbatim, DayMonthEvidence expected) =>
        Assert.Equal(expected, CollectingDate.OrderEvidence(verbatim));

    [Theory]
    [InlineData("31.02.2024", 1, "There is no 31 February 2024: February 2024 has 29 days, 1 to 29.")]
    [InlineData("29 Feb 2025", 1, "There is no 29 February 2025: February 2025 has 28 days, 1 to 28.")]
    [InlineData("2025-02-29", 9, "There is no 29 February 2025: February 2025 has 28 days, 1 to 28.")]
    [InlineData("31 June 2026", 1, "There is no 31 June: June has 30 days, 1 to 30.")]
    [InlineData("June 31, 2026", 6, "There is no 31 June: June has 30 days, 1 to 30.")]
    [InlineData("24-31 June 1947", 4, "There is no 31 June: June has 30 days, 1 to 30.")]
    [InlineData("45 June 2026", 1, "No month has a day 45.")]
    [InlineData("2026-13-01", 6, "There is no month 13.")]
    [InlineData("13/13/2026", 4, "There is no month 13.")]
    [InlineData("March 12", 9, "There is no year; without one it is not a date.")]
    [InlineData("3 April", 8, "There is no year; without one it is not a date.")]
    [InlineData("May 16 and August 7, 1991", 12, TwoVisits)]
    [InlineData("16 May 1991, 7 August 1991", 14, TwoVisits)]
    [InlineData("20 & 26 Mar. 1983", 6, TwoVisits)]
    [InlineData("45453", 1, DayCount)]
    [InlineData("45453.75", 1, DayCount)]
    [InlineData("1907/08", 6, "The number after the stroke is a month or the next year; write the one that is meant.")]
    [InlineData("28 July 1947 - 24 July 1947", 16, "The range ends before it begins.")]
    [InlineData("0198-05-01", 1, "0198 cannot be the year in which a plant was pressed.")]
    [InlineData("14 Floreal 1799", 4, "The word \"Floreal\" is not part of a date.")]
    [InlineData("14 Jun 2026 in fruit", 16, "The word \"fruit\" is not part of a date.")]
    [InlineData("1947--23", 6, "Not a date that can be read; write it like 2026-06-14, 14 Jun 2026, Jun 2026 or 2026.")]
    [InlineData("2026-06-", 8, "After this sign something is missing.")]
    [InlineData("5 6 7 8", 5, "Not a date that can be read; write it like 2026-06-14, 14 Jun 2026, Jun 2026 or 2026.")]
    [InlineData("14 Jun 2026 #3", 13, "The sign \"#\" does not belong in a date.")]
    [InlineData("s.d.", 1, "The label itself says that there is no date.")]
    [InlineData("  ", 1, "No date is written.")]
    [InlineData("", 1, "No date is written.")]
    public void Says_where_and_why_it_stopped(string verbatim, int column, string reason)
    {
        var reading = CollectingDate.Read(verbatim, latest: Received);
        Assert.False(reading.IsRead);
        Assert.Equal(reason, reading.Unreadable.Reason);
        Assert.Equal(column, reading.Unreadable.Column);
        Assert.Equal(verbatim, reading.Verbatim);
    }

    [Theory]
    [InlineData("2026-03-05", "5 Mar 2026", 2026, 3, 5, 64, 64)]
    [InlineData("1907-08", "Aug 1907", 1907, 8, null, null, null)]
    [InlineData("1907", "1907", 1907, null, null, null, null)]
    [InlineData("1947-07-24/1947-07-25", "24–25 Jul 1947", 1947, 7, null, 205, 206)]
    [InlineData("1988-04-30/1988-05-02", "30 Apr – 2 May 1988", 1988, null, null, 121, 123)]
    [InlineData("1899-12-30/1900-01-02", "30 Dec 1899 – 2 Jan 1900", null, null, null, 364, 2)]
    [InlineData("1931-06/1931-07", "Jun–Jul 1931", 1931, null, null, null, null)]
    [InlineData("1914/1916", "1914–1916", null, null, null, null, null)]
    [InlineData("1931/1931-07", "1931–Jul 1931", 1931, null, null, null, null)]
    public void Shows_and_publishes_no_more_than_is_known(
        string stored, string people, int? year, int? month, int? day, int? startDay, int? endDay)
    {
        var date = CollectingDate.FromIso8601(stored);
        Assert.Equal(stored, date.ToIso8601());
        Assert.Equal(people, date.ForPeople());
        Assert.Equal((year, month, day), (date.Year, date.Month, date.Day));
        Assert.Equal((startDay, endDay), (date.StartDayOfYear, date.EndDayOfYear));
    }

    [Theory]
    [InlineData("1907", "1907-01-01", "1907-12-31", DatePrecision.Year)]
    [InlineData("1908-02", "1908-02-01", "1908-02-29", DatePrecision.Month)]
    [InlineData("1908-02-03", "1908-02-03", "1908-02-03", DatePrecision.Day)]
    [InlineData("1908-02-03/1908-03", "1908-02-03", "1908-03-31", DatePrecision.Month)]
    public void Knows_the_days_it_can_mean(string stored, string earliest, string latest, DatePrecision precision)
    {
        var date = CollectingDate.FromIso8601(stored);
        Assert.Equal(earliest, date.Earliest.ToString("O", CultureInfo.InvariantCulture));
        Assert.Equal(latest, date.Latest.ToString("O", CultureInfo.InvariantCulture));
        Assert.Equal(precision, date.Precision);
    }

    [Theory]
    [InlineData("1907", "1907-08", true)]
    [InlineData("1907-08-31", "1907-08", true)]
    [InlineData("1907-09-01", "1907-08", false)]
    [InlineData("1947-07-24/1947-07-25", "1947-07-25/1947-07-30", true)]
    [InlineData("1947-07-24/1947-07-25", "1947-07-26", false)]
    public void Overlaps_when_both_can_mean_one_day(string one, string other, bool expected)
    {
        Assert.Equal(expected, CollectingDate.FromIso8601(one).Overlaps(CollectingDate.FromIso8601(other)));
        Assert.Equal(expected, CollectingDate.FromIso8601(other).Overlaps(CollectingDate.FromIso8601(one)));
    }

    [Fact]
    public void Two_spellings_of_one_date_are_equal_and_a_month_is_not_its_first_day()
    {
        Assert.Equal(CollectingDate.Read("14.VI.2026").Value, CollectingDate.On(new(2026, 6, 14)));
        Assert.Equal(CollectingDate.Read("Jun 2026").Value, CollectingDate.InMonth(2026, 6));
        Assert.NotEqual(CollectingDate.InMonth(2026, 6), CollectingDate.On(new(2026, 6, 1)));
        Assert.NotEqual(CollectingDate.InYear(2026), CollectingDate.InMonth(2026, 1));
    }

    [Fact]
    public void Sorts_by_beginning_then_by_end()
    {
        List<string> stored = ["1907", "1907-08", "1906-12-31", "1907-01-01", "1907-01"];
        var sorted = stored.Select(CollectingDate.FromIso8601).ToList();
        sorted.Sort(CollectingDate.InOrder);
        Assert.Equal(["1906-12-31", "1907-01-01", "1907-01", "1907", "1907-08"], sorted.Select(d => d.ToIso8601()));
    }

    [Theory]
    [InlineData("")]
    [InlineData("14 Jun 2026")]
    [InlineData("2026-02-30")]
    [InlineData("2026-06-14/")]
    [InlineData("0000")]
    [InlineData("2026/1999")]
    public void Refuses_to_read_back_what_it_never_wrote(string stored) =>
        Assert.Throws<FormatException>(() => CollectingDate.FromIso8601(stored));

    [Fact]
    public void A_range_cannot_end_before_it_begins() => Assert.Throws<ArgumentException>(
        () => CollectingDate.Between(CollectingDate.InYear(1931), CollectingDate.InYear(1930)));

    private static void Reads(string verbatim, string expected)
    {
        var reading = CollectingDate.Read(verbatim);
        Assert.True(reading.IsRead, reading.Unreadable?.Reason);
        Assert.Equal(expected, reading.Value.ToIso8601());
        Assert.Null(reading.Question);
        Assert.Equal(reading.Value, CollectingDate.FromIso8601(expected));
    }
}
