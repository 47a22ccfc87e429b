using Accession.Core.Localities;

namespace Accession.Core.Tests.Localities;

public sealed class CountyNameTests
{
    [Theory]
    [InlineData("Harney", "Oregon", "oregon/harney")]
    [InlineData("Harney County", "OR", "oregon/harney")]
    [InlineData("HARNEY CO.", "oregon", "oregon/harney")]
    [InlineData("St. Louis", "Missouri", "missouri/stlouis")]
    [InlineData("Saint Louis County", "MO", "missouri/stlouis")]
    [InlineData("De Baca", "N.M.", "newmexico/debaca")]
    [InlineData("De Baca County", "New Mexico", "newmexico/debaca")]
    [InlineData("Orleans Parish", "LA", "louisiana/orleans")]
    [InlineData("Doña Ana", "NM", "newmexico/donaana")]
    [InlineData("Colorado County", "TX", "texas/colorado")]        // "Co" within a name is not "County"
    [InlineData("Carson City", "Nevada", "nevada/carsoncity")]
    [InlineData("", "Oregon", "")]
    [InlineData("Harney", "", "")]                                 // Lincoln stands in two dozen states
    [InlineData("County", "Oregon", "")]
    public void Is_compared_without_what_only_says_that_it_is_a_county(string county, string state, string key) =>
        Assert.Equal(key, CountyName.KeyOf(state, county));

    // Every state and its postal abbreviation: Publication 28 of the United States Postal Service, appendix B (from memory).
    [Theory]
    [InlineData("WV", "West Virginia")]
    [InlineData("VA", "Virginia")]
    [InlineData("IN", "Indiana")]
    [InlineData("OR", "Oregon")]
    [InlineData("ME", "Maine")]
    [InlineData("CO", "Colorado")]
    [InlineData("DC", "District of Columbia")]
    [InlineData("ND", "North Dakota")]
    public void A_state_in_two_letters_is_the_state(string code, string name) =>
        Assert.Equal(CountyName.KeyOf(name, "Lincoln"), CountyName.KeyOf(code, "Lincoln"));

    [Fact]
    public void Two_states_have_two_counties_of_one_name() =>
        Assert.NotEqual(CountyName.KeyOf("Oregon", "Lincoln"), CountyName.KeyOf("Nevada", "Lincoln"));

    [Theory]
    [InlineData("Harney, Oregon", "Harney", "Oregon")]
    [InlineData("  Harney County ,OR ", "Harney County", "OR")]
    public void Reads(string text, string county, string state)
    {
        var read = CountyName.Read(text);

        Assert.True(read.IsRead);
        Assert.Equal(new CountyName(county, state), read.Value);
    }

    [Theory]
    [InlineData("Harney", 7, "Write the state after \"Harney\"")]
    [InlineData("Harney,", 7, "is not a county and its state")]
    [InlineData(", Oregon", 1, "is not a county and its state")]
    [InlineData("", 1, "Write the state")]
    public void Says_where_it_stopped(string text, int column, string reason)
    {
        var read = CountyName.Read(text);

        Assert.False(read.IsRead);
        Assert.Equal(column, read.Unreadable!.Column);
        Assert.Contains(reason, read.Unreadable.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_without_end_has_no_key() => Assert.Equal("", CountyName.KeyOf("Oregon", new string('x', 10_000)));
}
