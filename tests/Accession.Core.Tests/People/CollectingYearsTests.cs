using Accession.Core.People;

namespace Accession.Core.Tests.People;

/// <summary>Years by which persons of one spelling are told apart.</summary>
public sealed class CollectingYearsTests
{
    private static readonly CollectingYears[] Some =
    [
        CollectingYears.Any, new(1925, 1960), new(1960, 1980), new(1961, null), new(null, 1924), new(null, 1960), new(1930, 1930),
    ];

    [Fact]
    public void Years_overlap_where_a_year_is_of_both()
    {
        foreach (var one in Some)
        {
            foreach (var other in Some)
            {
                var isOfBoth = Enumerable.Range(1850, 200).Any(year => one.Hold(year) && other.Hold(year));
                Assert.Equal(isOfBoth, one.Overlap(other));
                Assert.Equal(one.Overlap(other), other.Overlap(one));
                Assert.All(
                    Enumerable.Range(1850, 200).Where(year => one.Hold(year) || other.Hold(year)),
                    year => Assert.True(one.With(other).Hold(year)));
            }
        }
    }

    [Theory]
    [InlineData("1925", "1960", "1925 to 1960")]
    [InlineData(" 1925 ", "", "from 1925")]
    [InlineData(null, "1960", "until 1960")]
    [InlineData("1930", "1930", "1930")]
    [InlineData("", " ", "any year")]
    public void Years_are_read_as_they_are_written(string? first, string? last, string words) =>
        Assert.Equal(words, CollectingYears.Read(first, last, 2026).Value.ToString());

    [Theory]
    [InlineData("1960", "1925")]
    [InlineData("1499", "")]
    [InlineData("", "2027")]
    [InlineData("25", "")]
    [InlineData("-1925", "")]
    [InlineData("1925.5", "")]
    [InlineData("one", "two")]
    public void Years_that_cannot_be_are_refused(string first, string last) =>
        Assert.True(CollectingYears.Read(first, last, 2026).IsRefused);

    [Fact]
    public void A_gap_of_more_than_forty_years_begins_another_stretch()
    {
        Assert.Equal(
            [new(1931, 1971, 3), new(2012, 2026, 2)],
            YearStretch.Of([(2026, 1), (1931, 1), (1971, 1), (1931, 1), (2012, 1)]));
        Assert.Empty(YearStretch.Of([]));
    }
}
