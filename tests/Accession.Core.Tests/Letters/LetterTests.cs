using Accession.Core.Letters;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Letters;

public sealed class LetterTests
{
    private static readonly DateTime Noon = new(2026, 3, 5, 12, 0, 0, DateTimeKind.Utc);
    private static readonly TimeSpan HalfAMinute = TimeSpan.FromSeconds(30);

    // RFC 5321 and 5322 say what an address is; one address and nothing beside it is a rule of ours.
    [Theory]
    [InlineData("ada@example.org", true)]
    [InlineData(" ada@example.org ", true)]
    [InlineData("a.quill+list@mail.example.org", true)]
    [InlineData("ada@localhost", true)]
    [InlineData("", false)]
    [InlineData("ada", false)]
    [InlineData("ada@", false)]
    [InlineData("@example.org", false)]
    [InlineData("ada@example.org, orla@example.org", false)]
    [InlineData("ada@example.org;orla@example.org", false)]
    [InlineData("Ada Quill <ada@example.org>", false)]
    [InlineData("ada@example.org\r\nBcc: all@example.org", false)]
    [InlineData("ada quill@example.org", false)]
    public void Addresses(string text, bool isOne)
    {
        var read = LetterAddress.Read(text);
        Assert.Equal(isOne, !read.IsRefused);
        if (isOne)
        {
            Assert.Equal(text.Trim(), read.Value);
        }
    }

    [Fact]
    public void A_subject_is_one_line() => Assert.Equal(
        "Question Bcc: all@example.org", Written(subject: "Question\r\nBcc: all@example.org").Subject);

    [Theory]
    [InlineData("nobody", "Question", "Which?", "That is not one mail address")]
    [InlineData("ada@example.org", " ", "Which?", "Write a subject")]
    [InlineData("ada@example.org", "Question", " \n ", "Write a letter")]
    public void What_is_wrong_is_said(string to, string subject, string text, string words)
    {
        var letter = Letter.Write(new(to, subject, text), "id@example.org", Act.Of(Door.System, "ask", Noon));
        Assert.StartsWith(words, Assert.Single(letter.Refusals).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Pauses_grow_up_to_four_hours() => Assert.Equal(
        [30, 60, 120, 240, 480, 960, 1920, 3840, 7680, 14400, 14400],
        Enumerable.Range(1, 11).Select(tries => (int)Letter.PauseAfter(tries, HalfAMinute).TotalSeconds));

    [Fact]
    public void After_five_days_of_tries_it_is_given_up()
    {
        var letter = Written();
        letter.CouldNotBeSent("Nobody answers.", Noon.AddDays(30), HalfAMinute);   // held for a month before
        Assert.Equal((true, Noon.AddDays(30) + HalfAMinute), (letter.Waits, letter.TryAgainAt));

        letter.CouldNotBeSent("Nobody answers.", Noon.AddDays(35), HalfAMinute);
        Assert.False(letter.Waits);
        Assert.Equal("It was tried for 5 days. Nobody answers.", letter.RefusedBecause);
        Assert.Null(letter.TryAgainAt);
    }

    [Fact]
    public void The_words_of_a_server_are_kept_without_the_address()
    {
        var letter = Written();
        letter.Refused("550 5.1.1 <ADA@example.org>:\r\n no such user", Noon);
        Assert.Equal("550 5.1.1 <that address>: no such user", letter.RefusedBecause);
    }

    private static Letter Written(string subject = "Question") => Letter.Write(
        new("ada@example.org", subject, "Which?"), "id@example.org", Act.Of(Door.System, "ask", Noon)).Value;
}
