using Accession.Core.Specimens;

namespace Accession.Core.Tests.Specimens;

public sealed class BorneNumberTests
{
    // From memory, after the shapes that old herbarium numbers have; no published source.
    [Theory]
    [InlineData("R-4313", "R-4313")]
    [InlineData(" 145732a ", "145732a")]
    [InlineData("2008.1334", "2008.1334")]
    [InlineData("01234", "01234")]
    [InlineData("K/12 34", "K/12 34")]
    [InlineData("Ö-12", "Ö-12")]
    [InlineData("1234567890123456789012345678901234567890", "1234567890123456789012345678901234567890")]
    public void A_number_is_kept_to_the_letter(string written, string number)
    {
        var read = BorneNumber.Read(written);
        Assert.Equal((written, number), (read.Verbatim, read.Value));
    }

    [Theory]
    [InlineData("", 1, "no number")]
    [InlineData("   ", 1, "no number")]
    [InlineData("Q-1\nQ-2", 4, "line break")]
    [InlineData("Q-\t1", 3, "cannot be seen")]
    [InlineData("Q\u200b12", 2, "cannot be seen")]
    [InlineData("Q\ufffd12", 2, "lost")]
    [InlineData("Q\ud83d\ude0012", 2, "cannot be seen")]
    [InlineData("12345678901234567890123456789012345678901", 41, "41 characters, and 40 are the most")]
    [InlineData("./-", 1, "no letter and no digit")]
    public void What_cannot_be_kept_says_why_and_what_to_do(string written, int column, string reason)
    {
        var read = BorneNumber.Read(written);
        Assert.False(read.IsRead);
        Assert.Equal(column, read.Unreadable.Column);
        Assert.Contains(reason, read.Unreadable.Reason, StringComparison.Ordinal);
        Assert.Contains("leave it out", read.Unreadable.Reason, StringComparison.Ordinal);
    }
}
