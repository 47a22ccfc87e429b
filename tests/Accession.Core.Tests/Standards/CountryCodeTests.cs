using System.Text.Json;
using Accession.Core.Standards.Countries;
using Accession.Tests;

namespace Accession.Core.Tests.Standards;

public sealed class CountryCodeTests
{
    // Spellings of labels: common practice, no published source.
    [Theory]
    [InlineData("USA", "US")]
    [InlineData("U.S.A.", "US")]
    [InlineData("U. S. A.", "US")]
    [InlineData("u.s.", "US")]
    [InlineData("United States", "US")]
    [InlineData("THE UNITED STATES OF AMERICA", "US")]
    [InlineData(" United  States\u00A0of America ", "US")]
    [InlineData("Estados Unidos", "US")]
    [InlineData("UK", "GB")]
    [InlineData("Great Britain", "GB")]
    [InlineData("Scotland", "GB")]
    [InlineData("Mexico", "MX")]
    [InlineData("México", "MX")]
    [InlineData("Deutschland", "DE")]
    [InlineData("Brasil", "BR")]
    [InlineData("日本", "JP")]
    [InlineData("Canada", "CA")]
    [InlineData("CA", "CA")]
    [InlineData("CAN", "CA")]
    [InlineData("Cote d'Ivoire", "CI")]
    [InlineData("Ivory Coast", "CI")]
    [InlineData("St. Lucia", "LC")]
    [InlineData("Saint Lucia", "LC")]
    [InlineData("Trinidad & Tobago", "TT")]
    [InlineData("Burma", "MM")]
    [InlineData("Czech Republic", "CZ")]
    [InlineData("Netherlands", "NL")]
    [InlineData("Republic of South Africa", "ZA")]
    [InlineData("Federal Republic of Nigeria", "NG")]
    [InlineData("Guinea", "GN")]
    [InlineData("Equatorial Guinea", "GQ")]
    [InlineData("Niger", "NE")]
    [InlineData("Georgia", "GE")]        // in a column of countries it is not the state
    public void Reads(string written, string code) => Assert.Equal(code, CountryCode.Of(written));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData(" . ")]
    [InlineData("Congo")]                // two countries
    [InlineData("Korea")]
    [InlineData("Virgin Islands")]
    [InlineData("USSR")]                 // gone, and several now
    [InlineData("Yugoslavia")]
    [InlineData("Czechoslovakia")]
    [InlineData("Oregon")]
    [InlineData("State of Georgia")]     // not the country
    [InlineData("Republic of Texas")]
    [InlineData("Republic")]
    [InlineData("can")]                  // a word, not the code
    [InlineData("XK")]                   // assigned by users, not by ISO
    [InlineData("Canary Islands")]
    [InlineData("\u0001<>&")]
    public void Does_not_guess(string? written) => Assert.Null(CountryCode.Of(written));

    [Fact]
    public void Nearly_all_names_of_the_code_list_are_known_and_none_is_mistaken()
    {
        var path = ReferenceData.Require("standards", "geo", "iso_3166-1.json");
        using var document = JsonDocument.Parse(File.ReadAllText(path));
        var list = document.RootElement.GetProperty("3166-1").EnumerateArray()
            .SelectMany(entry => new[] { "name", "official_name", "common_name", "alpha_2", "alpha_3" }
                .Where(key => entry.TryGetProperty(key, out _))
                .Select(key => (Key: key, Name: Text(entry, key), Code: Text(entry, "alpha_2"))))
            .ToList();
        var mistaken = list.Where(entry => CountryCode.Of(entry.Name) is { } code && code != entry.Code);
        Assert.Empty(mistaken);

        foreach (var names in list.GroupBy(entry => entry.Key))
        {
            var unknown = names.Where(entry => CountryCode.Of(entry.Name) is null).Select(entry => entry.Name).ToList();
            var known = names.Count() - unknown.Count;
            TestContext.Current.TestOutputHelper?.WriteLine(
                $"{names.Key}: {known} of {names.Count()}; unknown: {string.Join("; ", unknown)}");
            var floor = names.Key switch
            {
                "official_name" => 0.8,    // formal names are not what labels bear
                "alpha_3" => 0.97,         // the runtime has no such codes for lands where nobody lives
                _ => 0.99,
            };
            Assert.True(known >= floor * names.Count(), $"{names.Key}: {known} of {names.Count()}");
        }

        static string Text(JsonElement entry, string key) => entry.GetProperty(key).GetString()!;
    }
}
