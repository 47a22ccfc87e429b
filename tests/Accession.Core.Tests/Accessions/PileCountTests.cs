using Accession.Core.Accessions;

namespace Accession.Tests.Accessions;

public sealed class PileCountTests
{
    [Theory]
    [InlineData(5, 5, null, null, true)]
    [InlineData(5, 4, "One was eaten by mice.", "1 sheet missing", true)]
    [InlineData(5, 7, "zwei ohne Zettel", "2 sheets extra", true)]
    [InlineData(5, 3, null, "2 sheets missing", false)]
    [InlineData(5, 6, "  ", "1 sheet extra", false)]
    [InlineData(5, 6, "--- 1", "1 sheet extra", false)]   // marks and figures explain nothing
    public void A_difference_is_a_number_and_needs_words(
        int onList, int inPile, string? note, string? difference, bool stands)
    {
        var count = new PileCount(inPile, note);

        Assert.Equal(difference, count.Difference(onList));
        var refusal = count.WhyNot(onList);
        Assert.Equal(stands, refusal is null);
        Assert.True(stands || refusal!.Reason.Contains(difference!, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(10_000_001)]
    public void A_count_beyond_the_limits_is_refused_whatever_is_noted(int sheets) =>
        Assert.Contains(
            "0 to 10,000,000", new PileCount(sheets, "Counted twice.").WhyNot(1)!.Reason, StringComparison.Ordinal);
}
