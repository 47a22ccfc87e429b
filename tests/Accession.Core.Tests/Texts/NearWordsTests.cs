using Accession.Core.Texts;
using Accession.Tests;

namespace Accession.Core.Tests.Texts;

/// <summary>Plant names with a slip are found, and not everything is near everything.</summary>
public sealed class NearWordsTests
{
    private static readonly string[] Words =
        ["artemisia", "tridentata", "eriogonum", "umbellatum", "umbellata", "poa", "bromus", "tectorum", "rosa", "rubus"];

    [Theory]
    [InlineData("atremisia", "artemisia")]      // two letters changed places
    [InlineData("umbelatum", "umbellatum")]     // one left out
    [InlineData("erriogonum", "eriogonum")]     // one put in
    [InlineData("tectorom", "tectorum")]        // one taken for another
    [InlineData("eriogunom", "eriogonum")]      // two of them in a long word
    public void One_slip_is_mended(string typed, string meant) =>
        Assert.Equal(meant, NearWords.Of(typed, Words, isBeginning: false, 3)[0]);

    [Theory]
    [InlineData("poo")]         // too short to guess at
    [InlineData("bramas")]      // two slips in a short word
    [InlineData("1204")]
    [InlineData("quercus")]
    [InlineData("")]
    public void Others_are_left_alone(string typed) =>
        Assert.Empty(NearWords.Of(typed, Words, isBeginning: false, 3));

    [Fact]
    public void The_last_word_may_be_a_beginning()
    {
        Assert.Contains("umbellatum", NearWords.Of("umbelat", Words, isBeginning: true, 3));
        Assert.DoesNotContain("umbellatum", NearWords.Of("umbelat", Words, isBeginning: false, 3));
    }

    // Names of the reference table, each with a slip made in the middle of its first word; the table is open data, its
    // source named there.
    [Fact]
    public void Slips_made_in_names_of_the_reference_lead_back_to_them()
    {
        var words = File.ReadLines(ReferenceData.Require("samples", "names-reference.tsv")).Skip(1)
            .SelectMany(line => line.Split('\t')).SelectMany(cell => cell.ToLowerInvariant().Split(' '))
            .Where(word => word.Length is >= 6 and <= 30 && word.All(char.IsAsciiLetter))
            .Distinct().Take(4000).ToList();
        Assert.NotEmpty(words);
        foreach (var word in words.Where((_, index) => index % 40 == 0))
        {
            var middle = word.Length / 2;
            foreach (var slip in new[]
            {
                word.Remove(middle, 1),
                word.Insert(middle, "q"),
                word[..middle] + "q" + word[(middle + 1)..],
                word[..(middle - 1)] + word[middle] + word[middle - 1] + word[(middle + 1)..],
            })
            {
                Assert.Equal(0, NearWords.Slips(word, word, 2, isBeginning: false));
                Assert.True(NearWords.Slips(slip, word, 1, isBeginning: false) <= 1, $"{slip} is not near {word}");
            }
        }
    }
}
