using Accession.Core.Specimens;

namespace Accession.Core.Tests.Specimens;

public sealed class LastingIdentifierTests
{
    // The first two are the examples of the term in the Darwin Core quick reference guide (from memory).
    [Theory]
    [InlineData("http://arctos.database.museum/guid/MSB:Mamm:233627")]
    [InlineData("000866d2-c177-4648-a200-ead4007051b9")]
    [InlineData("urn:catalog:UWBM:Bird:89776")]
    [InlineData("DEMO-H:0001234")]
    public void Is_kept_to_the_letter(string written) => Assert.Equal(written, LastingIdentifier.Of($" {written} "));

    [Theory]
    [InlineData("")]
    [InlineData("two words")]
    [InlineData("a\u200Bb")]   // a blank that cannot be seen
    [InlineData("-")]
    public void Is_not_kept_when_it_cannot_be_cited(string written) => Assert.Equal("", LastingIdentifier.Of(written));

    [Fact]
    public void Is_not_kept_when_it_is_too_long()
    {
        Assert.NotEqual("", LastingIdentifier.Of(new string('x', LastingIdentifier.Longest)));
        Assert.Equal("", LastingIdentifier.Of(new string('x', LastingIdentifier.Longest + 1)));
    }

    [Fact]
    public void Is_new_each_time()
    {
        var (one, other) = (LastingIdentifier.New(), LastingIdentifier.New());
        Assert.NotEqual(one, other);
        Assert.StartsWith("urn:uuid:", one, StringComparison.Ordinal);
        Assert.Equal(one, LastingIdentifier.Of(one));
    }
}
