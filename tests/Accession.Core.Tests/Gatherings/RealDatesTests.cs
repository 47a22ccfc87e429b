using System.Globalization;
using Accession.Core.Gatherings;
using Accession.Tests;

namespace Accession.Core.Tests.Gatherings;

/// <summary>
/// Reads the dates of 10,734 published rows of herbarium sheets (Darwin Core, several hundred institutions) and
/// compares them with the year, month and day that the publishers gave in columns of their own. The rows are read in
/// place.
/// </summary>
public class RealDatesTests(ITestOutputHelper output)
{
    private static readonly string[] Files = ["occurrences-malus.tsv", "occurrences-vaccinium.tsv"];

    [Fact]
    public void Event_dates_agree_with_the_columns_year_month_and_day()
    {
        var count = Compare("eventDate", out var disagreements);
        Report("eventDate", count, disagreements);
        Assert.True(count.Read >= 0.999 * count.Written, "Nearly all are ISO 8601.");
        Assert.True(count.Agree >= 0.995 * count.Compared);
    }

    [Fact]
    public void Dates_as_written_agree_with_the_columns_year_month_and_day()
    {
        var count = Compare("verbatimEventDate", out var disagreements);
        Report("verbatimEventDate", count, disagreements);
        Assert.True(count.Read >= 0.9 * count.Written);
        Assert.True(count.Agree >= 0.97 * count.Compared);
        // What is left are slips and later corrections of the publishers: the two columns tell different stories.
        Assert.True(count.SureAndAgree >= 0.985 * count.Sure);
    }

    private static Count Compare(string column, out List<string> disagreements)
    {
        var count = default(Count);
        disagreements = [];
        foreach (var row in Files.SelectMany(Rows))
        {
            var verbatim = row[column];
            if (verbatim.Length == 0)
            {
                continue;
            }

            var reading = CollectingDate.Read(verbatim, DayMonthOrder.Unsettled, new(2025, 12, 31));
            count.Written++;
            if (!reading.IsRead)
            {
                var settles = reading.Unreadable.Reason.StartsWith("Day or month first?", StringComparison.Ordinal);
                count.OrderAsked += settles ? 1 : 0;
                disagreements.Add(settles ? "" : $"not read: {verbatim} {reading.Unreadable}");
                continue;
            }

            count.Read++;
            if (row["year"].Length == 0)
            {
                continue;
            }

            count.Compared++;
            var agrees = Agrees(reading.Value, row);
            count.Agree += agrees ? 1 : 0;
            count.Sure += reading.Question is null ? 1 : 0;
            count.SureAndAgree += reading.Question is null && agrees ? 1 : 0;
            if (!agrees)
            {
                disagreements.Add($"{verbatim} read {reading.Value} given {row["year"]}-{row["month"]}-{row["day"]}");
            }
        }

        disagreements.RemoveAll(line => line.Length == 0);
        return count;
    }

    /// <summary>
    /// What is given must lie in what was read, and may be coarser, but not finer than a range's first day.
    /// </summary>
    private static bool Agrees(CollectingDate read, Dictionary<string, string> row)
    {
        var given = int.Parse(row["year"], CultureInfo.InvariantCulture);
        var month = row["month"].Length == 0 ? 0 : int.Parse(row["month"], CultureInfo.InvariantCulture);
        var day = row["day"].Length == 0 ? 0 : int.Parse(row["day"], CultureInfo.InvariantCulture);
        if (read.IsRange)
        {
            var date = day != 0 ? CollectingDate.On(new(given, month, day))
                : month != 0 ? CollectingDate.InMonth(given, month)
                : CollectingDate.InYear(given);
            return read.Overlaps(date);
        }

        return read.Year == given && (read.Month ?? 0) == month && (read.Day ?? 0) == day;
    }

    private static IEnumerable<Dictionary<string, string>> Rows(string file)
    {
        var lines = File.ReadLines(ReferenceData.Require("samples", file));
        string[]? headings = null;
        foreach (var line in lines)
        {
            var cells = line.Split('\t');
            if (headings is null)
            {
                headings = cells;
                continue;
            }

            yield return headings.Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second);
        }
    }

    private void Report(string column, Count count, List<string> lines)
    {
        output.WriteLine($"{column}: {count.Written} written, {count.Read} read, {count.OrderAsked} ask for the order "
            + $"of day and month; {count.Agree} of {count.Compared} agree; "
            + $"{count.SureAndAgree} of the {count.Sure} that carry no question.");
        lines.ForEach(output.WriteLine);
    }

    private struct Count
    {
        public int Written;
        public int Read;
        public int OrderAsked;
        public int Compared;
        public int Agree;
        public int Sure;
        public int SureAndAgree;
    }
}
