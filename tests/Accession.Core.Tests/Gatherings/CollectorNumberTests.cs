using Accession.Core.Gatherings;

namespace Accession.Core.Tests.Gatherings;

/// <summary>All numbers and names are invented.</summary>
public sealed class CollectorNumberTests
{
    [Theory]
    [InlineData("4471", "", "4471", "")]
    [InlineData("No. 4471", "", "4471", "")]
    [InlineData("№ 4471", "", "4471", "")]
    [InlineData("#4471", "", "4471", "")]
    [InlineData("N:o 4471", "", "4471", "")]
    [InlineData("04471", "", "4471", "")]                     // leading zeros
    [InlineData("4,471", "", "4471", "")]                     // a mark of thousands
    [InlineData("4.471", "", "4471", "")]
    [InlineData("4 471", "", "4471", "")]
    [InlineData("4'471", "", "4471", "")]
    [InlineData("4471.0", "", "4471", "")]                    // what a spreadsheet adds
    [InlineData("4471*", "", "4471", "")]
    [InlineData("(4471)", "", "4471", "")]
    [InlineData("４４７１", "", "4471", "")]                    // full width
    [InlineData("٤٤٧١", "", "4471", "")]                      // Arabic digits
    [InlineData("4471A", "", "4471", "A")]
    [InlineData("4471-a", "", "4471", "a")]
    [InlineData("4471 (a)", "", "4471", "a")]
    [InlineData("4471 bis", "", "4471", "bis")]
    [InlineData("4471½", "", "4471", "½")]
    [InlineData("4471.1", "", "4471", ".1")]                  // inserted later
    [InlineData("4471/1", "", "4471", "/1")]
    [InlineData("4471 pro parte", "", "4471", "p.p.")]
    [InlineData("471 (22)", "", "471", "(22)")]               // a remark that is no letter stays in its brackets
    [InlineData("2031-014", "", "2031-014", "")]              // a year series stays whole
    [InlineData("31-014b", "", "31-014", "b")]
    [InlineData("44/31", "", "44/31", "")]
    [InlineData("310614-3", "", "310614-3", "")]              // date and serial
    [InlineData("310614/3", "", "310614/3", "")]
    [InlineData("KB-4471", "KB", "4471", "")]
    [InlineData("KB4471", "KB", "4471", "")]
    [InlineData("K.4471", "K", "4471", "")]
    [InlineData("KB-31-14", "KB", "31-14", "")]
    [InlineData("KB 2031-14", "KB", "2031-14", "")]
    [InlineData("KB2031/14", "KB", "2031/14", "")]            // a year that hangs on the letters
    [InlineData("KB77-313", "KB77", "313", "")]               // other digits that do are a code
    [InlineData("B.19.412", "B.19", "412", "")]               // book and page
    [InlineData("XII-45", "XII", "45", "")]
    [InlineData("QX2031_FEN_P3", "QX2031_FEN_P", "3", "")]
    [InlineData("31-C-79", "31-C", "79", "")]
    [InlineData("4471 P/", "P", "4471", "")]                  // the series after the number
    [InlineData("Torvald 4471", "Torvald", "4471", "")]
    [InlineData("Torvald, M; Brill Ch., A 4471", "Torvald, M; Brill Ch., A", "4471", "")]
    public void Reads_the_parts(string verbatim, string prefix, string number, string suffix)
    {
        var read = Assert.Single(CollectorNumber.Read(verbatim).Value.Numbers);
        Assert.Equal((prefix, number, suffix), (read.Prefix, read.Number, read.Suffix));
    }

    [Theory]
    [InlineData("JKT-2031-014", "JKT|2031|14|")]
    [InlineData("4471 bis", "|4471|BIS")]
    [InlineData("jkt 2031/14", "JKT|2031|14|")]
    [InlineData("Torvald 4471", "|4471|")]                    // a name is no series
    [InlineData("Collector Number: 4471", "|4471|")]          // nor is the label of a field
    [InlineData("Q-4471", "Q|4471|")]                         // a series is
    public void Has_one_key_for_all_spellings(string verbatim, string key) =>
        Assert.Equal(key, CollectorNumber.Read(verbatim).Value.Key);

    [Fact]
    public void Two_spellings_are_equal()
    {
        var one = CollectorNumber.Read("KB-0447a").Value.First;
        var other = CollectorNumber.Read("kb 447 A").Value.First;
        Assert.Equal(one, other);
        Assert.Equal(one.GetHashCode(), other.GetHashCode());
        Assert.NotEqual(one, CollectorNumber.Read("447a").Value.First);
    }

    [Theory]
    [InlineData("s.n.", "")]
    [InlineData("S. N.", "")]
    [InlineData("sn", "")]
    [InlineData("sine numero", "")]
    [InlineData("no number", "")]
    [InlineData("sin número", "")]
    [InlineData("NO DISPONIBLE", "")]
    [InlineData("–", "")]
    [InlineData("s.n. (14 June)", "")]
    [InlineData("Torvald s.n.", "Torvald")]
    [InlineData("QXPEC", "QXPEC")]                            // a prefix whose number is missing
    public void Reads_that_there_is_no_number(string verbatim, string prefix)
    {
        var numbers = CollectorNumber.Read(verbatim).Value;
        Assert.True(numbers.IsWithoutNumber);
        Assert.Equal(prefix, numbers.PrefixWithoutNumber);
    }

    [Fact]
    public void Zero_is_doubtful()
    {
        var reading = CollectorNumber.Read("0");
        Assert.True(reading.Value.IsWithoutNumber);
        Assert.NotNull(reading.Question);
    }

    [Theory]
    [InlineData("4471-4478", "|4471| - |4478|")]
    [InlineData("4471 – 4478", "|4471| - |4478|")]
    [InlineData("4471 to 4478", "|4471| - |4478|")]
    [InlineData("4471 ff.", "|4471|")]
    public void A_range_is_asked_about(string verbatim, string key)
    {
        var reading = CollectorNumber.Read(verbatim);
        Assert.True(reading.Value.IsRange);
        Assert.Equal(key, reading.Value.Key);
        Assert.NotNull(reading.Question);
    }

    [Theory]
    [InlineData("4471, 4473", 2)]
    [InlineData("4471,4473", 2)]                              // not a mark of thousands
    [InlineData("4471 & 4473", 2)]
    [InlineData("A. Brill #77 and M. Torvald #812", 2)]
    [InlineData("KB 4471; QX 12; 9", 3)]
    public void Reads_a_list(string verbatim, int count)
    {
        var reading = CollectorNumber.Read(verbatim);
        Assert.Equal(count, reading.Value.Numbers.Count);
        Assert.False(reading.Value.IsRange);
        Assert.NotNull(reading.Question);
    }

    [Theory]
    [InlineData("447?", "447")]
    [InlineData("[447]", "447")]
    [InlineData("447 (sic)", "447")]
    [InlineData("4?7", "4?7")]
    [InlineData("4l7", "417")]                                // a letter for a digit
    public void Keeps_a_doubt(string verbatim, string number)
    {
        var numbers = CollectorNumber.Read(verbatim).Value;
        Assert.True(numbers.IsUncertain);
        Assert.Equal(number, numbers.First?.Number);
    }

    [Theory]
    [InlineData("17-Mar")]
    [InlineData("Mar-17")]
    [InlineData("3-abr")]
    [InlineData("17-Mar-24")]
    [InlineData("12/06/2024")]
    [InlineData("2024-06-12")]
    [InlineData("2024-06-12 00:00:00")]
    [InlineData("12/6/24")]
    public void A_date_of_a_spreadsheet_is_not_a_number(string verbatim)
    {
        var reading = CollectorNumber.Read(verbatim);
        Assert.False(reading.IsRead);
        Assert.Equal(1, reading.Unreadable.Column);
        Assert.StartsWith($"\"{verbatim}\" is a date:", reading.Unreadable.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1.23E+05")]
    [InlineData("1,2E5")]
    [InlineData("2E+06")]
    public void A_power_of_ten_is_not_a_number(string verbatim) => Assert.StartsWith(
        $"\"{verbatim}\" is a rounded power of ten",
        CollectorNumber.Read(verbatim).Unreadable?.Reason,
        StringComparison.Ordinal);

    [Theory]
    [InlineData("12/6")]                                      // a year series or a part; only three fields make a date
    [InlineData("26-6-14-3")]
    [InlineData("12E5")]                                      // a part E5
    public void Looks_like_damage_but_is_a_number(string verbatim) =>
        Assert.True(CollectorNumber.Read(verbatim).IsRead);

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData(null)]
    public void A_blank_states_nothing(string? verbatim) => Assert.Equal(
        "No number was written; write s.n. if there is none.", CollectorNumber.Read(verbatim).Unreadable?.Reason);

    [Fact]
    public void No_text_makes_it_throw()
    {
        foreach (var text in RandomTexts.Of(seed: 20_310_614, count: 20_000))
        {
            var reading = CollectorNumber.Read(text);
            Assert.Equal(text, reading.Verbatim);
            Assert.NotNull(reading.IsRead ? reading.Value.Key : reading.Unreadable.Reason);
        }
    }

    [Theory]
    [InlineData("1-")]
    [InlineData("1a")]
    [InlineData("1, ")]
    [InlineData("9")]
    [InlineData("(")]
    [InlineData("s.n. ")]
    public void Long_texts_are_read_to_their_end(string piece)
    {
        var text = string.Concat(Enumerable.Repeat(piece, 5_000));
        Assert.Equal(text, CollectorNumber.Read(text).Verbatim);
    }
}
