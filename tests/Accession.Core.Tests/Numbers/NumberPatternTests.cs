using Accession.Core.Numbers;

namespace Accession.Core.Tests.Numbers;

public class NumberPatternTests
{
    private static readonly NumberPattern Sheets = NumberPattern.Read("DEMO-H0000000").Value;

    /// <summary>What scanners and people make of one number; the spellings are common practice, no published source.</summary>
    [Theory]
    [InlineData("DEMO-H0001234")]
    [InlineData("DEMO-H 1234")]
    [InlineData("demo-h1234")]         // caps lock, or a lazy hand
    [InlineData("DEMO H 0001234 ")]
    [InlineData("DEMO'H0001234")]      // the hyphen's key on a foreign layout
    [InlineData("DEMOßH0001234")]
    [InlineData("0001234")]            // the whole width, as under a barcode
    public void Every_spelling_is_one_number(string typed)
    {
        var number = Sheets.NumberIn(typed);
        Assert.Equal(1234, number);
        Assert.Equal("DEMO-H0001234", Sheets.Write(number!.Value, 0));
    }

    [Theory]
    [InlineData("1234")]               // may be a collector's number
    [InlineData("")]
    [InlineData("DEMO-H")]
    [InlineData("DEMO-H00012345678")]  // eight digits that count
    [InlineData("DEMO-K0001234")]
    [InlineData("DEMO-H12A4")]
    [InlineData("DEMO-H-9999999999999999999")]
    public void Other_texts_are_no_number_of_the_series(string typed) => Assert.Null(Sheets.NumberIn(typed));

    [Theory]
    [InlineData("1234", 1234L)]
    [InlineData(" 0001234", 1234L)]
    [InlineData("12345678", null)]
    [InlineData("12a", null)]
    [InlineData("", null)]
    public void Digits_alone_are_a_question(string typed, long? number) => Assert.Equal(number, Sheets.BareNumberIn(typed));

    [Theory]
    [InlineData("DEMO-H0001234DEMO-H0001235", 1234, 1235)]
    [InlineData("demo-h0001234demoßh0000009", 1234, 9)]
    [InlineData("00012340001235", 1234, 1235)]
    public void Two_codes_that_ran_together_are_told_apart(string scanned, long first, long second)
    {
        Assert.Equal((first, second), Sheets.JoinedNumbersIn(scanned));
        Assert.Null(Sheets.NumberIn(scanned));
    }

    [Theory]
    [InlineData("DEMO-H0001234")]
    [InlineData("DEMO-H0001234DEMO-H")]
    [InlineData("DEMO-H0001234DEMO-K0001235")]
    public void Other_texts_are_not_two_codes(string scanned) => Assert.Null(Sheets.JoinedNumbersIn(scanned));

    [Theory]
    [InlineData("YYYY.0000", 147, 2026, "2026.0147", true, 9_999)]
    [InlineData("0000/YYYY", 147, 2026, "0147/2026", true, 9_999)]
    [InlineData("000", 7, 2026, "007", false, 999)]
    [InlineData("A000000000000-B", 1, 0, "A000000000001-B", false, 999_999_999_999)]
    [InlineData("0000000", 12_345_678, 0, "12345678", false, 9_999_999)]   // wider than planned, still itself
    public void Writes_one_form(string pattern, long number, int year, string written, bool hasYear, long largest)
    {
        var read = NumberPattern.Read(pattern).Value;
        Assert.Equal((written, hasYear, largest), (read.Write(number, year), read.HasYear, read.Largest));
    }

    [Theory]
    [InlineData("", 1, "needs a run of noughts")]
    [InlineData("DEMO-H", 7, "needs a run of noughts")]
    [InlineData("DEMO-H00", 7, "3 to 12 long")]
    [InlineData("X0000000000000", 2, "3 to 12 long")]
    [InlineData("H0-0000000", 2, "3 to 12 long")]
    [InlineData("DEMO H0000000", 5, "only letters")]
    [InlineData("DEMO-H0000000#", 14, "only letters")]
    [InlineData("É0000000", 1, "only letters")]
    [InlineData("H0000000-01", 10, "digits other than 0")]
    public void A_wrong_pattern_says_where_and_why(string pattern, int column, string reason)
    {
        var read = NumberPattern.Read(pattern);
        Assert.False(read.IsRead);
        Assert.Equal(column, read.Unreadable.Column);
        Assert.Contains(reason, read.Unreadable.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("DEMO-H0000000", "demoh00000000", true)]
    [InlineData("H0000000", "H1000000", true)]     // H1000005 would be number 1,000,005 of one and 5 of the other
    [InlineData("000-A", "000-B", false)]
    [InlineData("000-A", "000-2A", true)]
    [InlineData("DEMO-H0000000", "DEMO-K0000000", false)]
    [InlineData("DEMO0000000", "DEMO-H0000000", false)]
    public void Two_patterns_that_read_alike_are_known(string one, string other, bool alike)
    {
        var (first, second) = (NumberPattern.Read(one).Value, NumberPattern.Read(other).Value);
        Assert.Equal((alike, alike), (first.ReadsLike(second), second.ReadsLike(first)));
    }
}
