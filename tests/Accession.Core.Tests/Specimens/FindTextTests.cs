using Accession.Core.Specimens;

namespace Accession.Core.Tests.Specimens;

public sealed class FindTextTests
{
    [Theory]
    [InlineData("Bromus tectorum", "bromus tectorum")]
    [InlineData("  Brómus,TECTORUM! ", "bromus tectorum")]
    [InlineData("DEMO-H0000012", "demo h0000012")]
    [InlineData("1931-05-12", "1931 05 12")]
    [InlineData("Salix × sericans", "salix sericans")]
    [InlineData("Salix X sericans", "salix sericans")]
    [InlineData("\"a\" OR b* NEAR(c)", "a or b near c")]      // what a database would take for signs of its own is words
    [InlineData("'; DROP TABLE specimen; --", "drop table specimen")]
    [InlineData("黄 文", "黄 文")]
    [InlineData("—…!", "")]
    [InlineData("", "")]
    public void Words_are_letters_and_digits(string asked, string words) =>
        Assert.Equal(words, string.Join(' ', FindText.WordsAsked(asked)));

    [Fact]
    public void Nobody_asks_for_more_words_than_count() =>
        Assert.Equal(FindText.MostWords, FindText.WordsAsked(string.Join(' ', Enumerable.Range(0, 10_000))).Count);
}
