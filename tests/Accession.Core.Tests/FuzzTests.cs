using System.Diagnostics;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests;

/// <summary>Whatever people write, a reader answers; it never throws, and it never takes long.</summary>
public class FuzzTests(ITestOutputHelper output)
{
    private static readonly string[] Pieces =
    [
        "0", "1", "12", "31", "2026", "99999", "20260614", "99999999999999999999999", "-", "–", "−", "/", ".", ",", ";",
        ":", " ", "  ", "'", "’", "\"", "″", "′", "°", "º", "N", "S", "E", "W", "O", "d", "m", "s", "T", "Z", "VI",
        "xx", "June", "juillet", "spring", "and", "&", "to", "ca.", "?", "??", "[", "]", "T23S", "R30E", "UTM",
        "ft", "km", "±",
        "\u0301", "\uD83C", "\uDF3F", "\u200B", "\0", "é", "ß", "İ", "٣", "lat", "long", "of", "th", "+",
    ];

    private static readonly string[] Sensible =
    [
        "2026-06-14T23:30-07:00", "24-25 July 1947", "30 Apr-2 May 1988", "May 16 and August 7, 1991", "25/12/24",
        "14 vi 26",
        "winter 1910-11", "43°35'11.1\"N 119°03'15.1\"W", "43,58642; -119,05417", "N43d35m11.1s W119d3m15.1s",
        "10.00, -123.50",
        "11T LJ 34167 27989", "T23S R30E Sec. 14", "4100-4200 feet", "1200 m.s.n.m.", "±30 m", "1,256 m", "NAD 27",
    ];

    [Fact]
    public void No_reader_throws_on_any_text()
    {
        var random = new Random(20260614);
        var texts = Enumerable.Range(0, 20_000).Select(_ => Invent(random)).ToList();
        texts.Add(new string('9', 10_000));
        texts.Add(string.Concat(Enumerable.Repeat("1-", 10_000)));
        texts.Add(string.Concat(Enumerable.Repeat("1,111", 10_000)));
        texts.Add(new string('a', 10_000));
        var clock = Stopwatch.StartNew();
        var read = 0;
        foreach (var text in texts)
        {
            var date = CollectingDate.Read(text, (DayMonthOrder)random.Next(3), new(2026, 9, 30));
            read += date.IsRead ? 1 : 0;
            CollectingDate.OrderEvidence(text);
            Reading<ExactPoint>[] points = [Coordinates.Read(text), Coordinates.Read(text, text)];
            Elevation.Read(text, LengthUnit.Metre);
            UncertaintyRadius.Read(text);
            Datum.Read(text);
            if (date.IsRead)
            {
                Assert.Equal(date.Value, CollectingDate.FromIso8601(date.Value.ToIso8601()));
                Assert.True(date.Value.Earliest <= date.Value.Latest);
                Assert.NotEmpty(date.Value.ForPeople());
            }
            else
            {
                Assert.True(date.Unreadable.Column >= 1 && date.Unreadable.Column <= text.Length + 1,
                    $"{text}: {date.Unreadable}");
            }

            Assert.All(points.Where(p => !p.IsRead),
                p => Assert.InRange(p.Unreadable!.Column, 1, p.Verbatim.Length + 1));
        }

        output.WriteLine($"{texts.Count} texts, {read} of them dates, in {clock.ElapsedMilliseconds} ms.");
    }

    [Fact]
    public void Two_hundred_thousand_rows_are_read_without_allocating_more_than_their_results()
    {
        string[] dates = ["2024-08-27", "May. 15, 1981", "27 Aug 2024", "1961", "14.VI.2026", "25/12/2024"];
        string[] points = ["37.36928", "43°35'11.1\"N", "43 35.185", "37.3"];
        const int Rows = 200_000;
        Run(1_000);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var clock = Stopwatch.StartNew();
        Run(Rows);
        clock.Stop();
        var bytes = (GC.GetAllocatedBytesForCurrentThread() - before) / Rows;
        output.WriteLine($"{Rows} rows of date, pair of coordinates, elevation and datum: "
            + $"{clock.ElapsedMilliseconds} ms, {bytes} bytes a row.");
        Assert.True(bytes < 200, "The readers allocate more than their results.");

        void Run(int rows)
        {
            for (var i = 0; i < rows; i++)
            {
                CollectingDate.Read(dates[i % dates.Length]);
                Coordinates.Read(points[i % points.Length], "-112.44274");
                Elevation.Read("2133", LengthUnit.Metre);
                Datum.Read("WGS 84");
            }
        }
    }

    /// <summary>
    /// Loose characters, loose pieces, or something sensible with one character gone, doubled or changed.
    /// </summary>
    private static string Invent(Random random)
    {
        switch (random.Next(3))
        {
            case 0:
                return new string([.. Enumerable.Range(0, random.Next(0, 30)).Select(_ => (char)random.Next(32, 400))]);
            case 1:
                var pieces = Enumerable.Range(0, random.Next(0, 9));
                return string.Concat(pieces.Select(_ => Pieces[random.Next(Pieces.Length)]));
            default:
                var text = Sensible[random.Next(Sensible.Length)];
                var at = random.Next(text.Length);
                var change = random.Next(3) switch
                {
                    0 => "",
                    1 => text[at] + text[at].ToString(),
                    _ => Pieces[random.Next(Pieces.Length)],
                };
                return text[..at] + change + text[(at + 1)..];
        }
    }
}
