using Accession.Core.People;

namespace Accession.Core.Tests.People;

/// <summary>All names are invented.</summary>
public sealed class CollectorsTests
{
    [Theory]
    [InlineData("M. K. Torvald", "Torvald", "M. K.", "", "", "")]
    [InlineData("MK Torvald", "Torvald", "MK", "", "", "")]                        // initials without stops
    [InlineData("M.K.Torvald", "Torvald", "M.K.", "", "", "")]                     // no space anywhere
    [InlineData("Torvald, M. K.", "Torvald", "M. K.", "", "", "")]
    [InlineData("Torvald,M.K.", "Torvald", "M.K.", "", "", "")]
    [InlineData("Torvald M.K.", "Torvald", "M.K.", "", "", "")]                    // family first without a comma
    [InlineData("Torvald MK", "Torvald", "MK", "", "", "")]
    [InlineData("TORVALD", "Torvald", "", "", "", "")]                             // capitals carry no meaning
    [InlineData("TORVALD, M.K.", "Torvald", "M.K.", "", "", "")]
    [InlineData("Torvald, M. K., Jr.", "Torvald", "M. K.", "", "", "Jr.")]         // a suffix parts no persons
    [InlineData("Torvald, Jr., Mark", "Torvald", "Mark", "", "", "Jr.")]
    [InlineData("M. K. Torvald III", "Torvald", "M. K.", "", "", "III")]
    [InlineData("Torvald III, Len", "Torvald", "Len", "", "", "III")]
    [InlineData("Quental Filho, R.A.", "Quental", "R.A.", "", "", "Filho")]        // Portuguese suffixes
    [InlineData("R. A. Quental Neto", "Quental", "R. A.", "", "", "Neto")]
    [InlineData("H. van der Molen", "Molen", "H.", "van der", "", "")]             // particles before and after
    [InlineData("van der Molen, H.", "Molen", "H.", "van der", "", "")]
    [InlineData("Molen, H. van der", "Molen", "H.", "van der", "", "")]
    [InlineData("Quental,R.A.de", "Quental", "R.A.", "de", "", "")]
    [InlineData("Van der Molen H.J.", "Van der Molen", "H.J.", "", "", "")]        // with a capital it is the name
    [InlineData("O. Ferrero G.", "Ferrero", "O.", "", "G.", "")]                   // the second family name shortened
    [InlineData("Ferrero G., Omar", "Ferrero", "Omar", "", "G.", "")]
    [InlineData("Ferrero Landívar, O.", "Ferrero", "O.", "", "Landívar", "")]
    [InlineData("José Ferrero Landívar", "Ferrero", "José", "", "Landívar", "")]   // after a Spanish given name
    [InlineData("P. de la Roca Landívar", "Roca", "P.", "de la", "Landívar", "")]
    [InlineData("R. A. Quental e Prado", "Quental e Prado", "R. A.", "", "", "")]  // one Portuguese name of two
    [InlineData("W. Wayne Torvald", "Torvald", "W. Wayne", "", "", "")]            // a given name, not a family
    [InlineData("Q. d'Orsel", "d'Orsel", "Q.", "", "", "")]
    [InlineData("E. St. Clove", "St. Clove", "E.", "", "", "")]
    [InlineData("Han Min-seo", "Han", "Min-seo", "", "", "")]                      // family first in the east
    [InlineData("Tao Xiaolan", "Tao", "Xiaolan", "", "", "")]
    [InlineData("林小梅", "林", "小梅", "", "", "")]
    [InlineData("Dra. M. K. Torvald", "Torvald", "M. K.", "", "", "")]             // titles fall away
    [InlineData("Prof. Dr. Torvald", "Torvald", "", "", "", "")]
    [InlineData("Bro. Evaristus", "", "Evaristus", "", "", "")]                    // a name of religion, no family
    [InlineData("Collector(s): M. K. Torvald", "Torvald", "M. K.", "", "", "")]    // the label of the field
    [InlineData("leg. M. K. Torvald", "Torvald", "M. K.", "", "", "")]
    [InlineData("M. K. Torvald det. A. Brill", "Torvald", "M. K.", "", "", "")]    // another role
    [InlineData("Torvald, M. (Herb. Brillmann)", "Torvald", "M.", "", "", "")]     // a remark in brackets
    [InlineData("[Torvald, M.]", "Torvald", "M.", "", "", "")]                     // all of it in brackets
    [InlineData("M[ark] Torvald", "Torvald", "Mark", "", "", "")]                  // completed by a later hand
    [InlineData("Torvald,M. Pl. exsicc. borealis", "Torvald", "M.", "", "", "")]   // a printed series
    [InlineData("Torvald, M. K., 1872-1930", "Torvald", "M. K.", "", "", "")]      // years of life
    public void Reads_one_person(
        string verbatim, string family, string given, string particle, string second, string suffix)
    {
        var person = Assert.Single(Collectors.Read(verbatim).Value.Persons);
        Assert.Equal(
            (family, given, particle, second, suffix),
            (person.Family, person.Given, person.Particle, person.Second, person.Suffix));
    }

    [Theory]
    [InlineData("M. Torvald & A. Brill", "M. Torvald | A. Brill")]
    [InlineData("M.Torvald&A.Brill", "M. Torvald | A. Brill")]
    [InlineData("Torvald et Brill", "Torvald | Brill")]
    [InlineData("Torvald/Brill", "Torvald | Brill")]
    [InlineData("Torvald y Brill", "Torvald | Brill")]
    [InlineData("M. Torvald with A. Brill, C. Holm", "M. Torvald | A. Brill | C. Holm")]
    [InlineData("M. Torvald w/ A. Brill", "M. Torvald | A. Brill")]
    [InlineData("Torvald, M.;Brill, A.", "M. Torvald | A. Brill")]
    [InlineData("Torvald, M., Brill, A. & Holm, C.", "M. Torvald | A. Brill | C. Holm")]
    [InlineData("Torvald, M. K., A. Brill & C. Holm", "M. K. Torvald | A. Brill | C. Holm")] // the first inverted
    [InlineData("Torvald, Brill, Holm", "Torvald | Brill | Holm")]                             // three family names
    [InlineData("Torvald, John, Brill, Mary", "John Torvald | Mary Brill")]                    // by turns
    [InlineData("Mary Torvald, John Brill", "Mary Torvald | John Brill")]
    [InlineData("Torvald MK; Brill AC", "MK Torvald | AC Brill")]
    [InlineData("J. & A. Brill", "J. Brill | A. Brill")]                                       // a shared family name
    [InlineData("Peter and Mary Brill", "Peter Brill | Mary Brill")]
    [InlineData("A. Brill & J. ditto", "A. Brill | J. Brill")]
    [InlineData("Torvald, M.; Torvald, M.", "M. Torvald")]                                     // listed twice
    [InlineData("Mark K. Torvald; M.K. Torvald", "Mark K. Torvald")]
    [InlineData("M. Torvald; A. Torvald", "M. Torvald | A. Torvald")]
    [InlineData("M. Torvald, Jr.; M. Torvald", "M. Torvald, Jr. | M. Torvald")]                // father and son
    [InlineData("Mark Torvald; b.1870; d.1921; Torv.", "Mark Torvald")]                        // author's abbreviation
    [InlineData("M. Torvald et al.", "M. Torvald | et al.")]
    [InlineData("Torvald, M.|et al", "M. Torvald | et al.")]
    [InlineData("M. Torvald y otros", "M. Torvald | et al.")]
    [InlineData("M. Torvald & Hydrology 12 class", "M. Torvald | Hydrology 12 class")]
    public void Reads_a_team_in_its_order(string verbatim, string expected) =>
        Assert.Equal(expected, Collectors.Read(verbatim).Value.ToString());

    [Theory]
    [InlineData("Lakeside Weed Crew")]
    [InlineData("Fen & Dune Service")]        // the sign is a part of the name
    [InlineData("Expedition to the Salt Hills")]
    [InlineData("Curator Westmoor Bot. Garden")]
    [InlineData("Universidad de Monteclaro")]
    public void Keeps_a_group_whole(string verbatim)
    {
        var collectors = Collectors.Read(verbatim).Value;
        Assert.Empty(collectors.Persons);
        Assert.Equal(verbatim, collectors.Group);
    }

    [Theory]
    [InlineData("Anon.")]
    [InlineData("s. coll.")]
    [InlineData("s.c.")]
    [InlineData("Collector unknown")]
    [InlineData("[data not captured]")]
    [InlineData("sin colector")]
    [InlineData("não informado")]
    [InlineData("unbekannt")]
    [InlineData("N/A")]
    public void Reads_that_nobody_is_known(string verbatim)
    {
        var collectors = Collectors.Read(verbatim).Value;
        Assert.Empty(collectors.Persons);
        Assert.True(collectors.IsAnonymous);
    }

    [Theory]
    [InlineData("N Torvald 30877", "30877")]
    [InlineData("Torvald,N. 6192 b", "6192 b")]
    [InlineData("Torvald No. 77", "77")]
    [InlineData("Torvald (618), N.", "618")]
    public void Finds_a_number_in_the_text(string verbatim, string number)
    {
        var collectors = Collectors.Read(verbatim).Value;
        Assert.Equal(number, collectors.NumberInText);
        Assert.Equal("Torvald", Assert.Single(collectors.Persons).Family);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData(null)]
    public void A_blank_says_nothing_and_is_not_anonymous(string? verbatim)
    {
        var reading = Collectors.Read(verbatim);
        Assert.False(reading.IsRead);
        Assert.Equal(1, reading.Unreadable.Column);
        Assert.Equal("No collector was written; write s.coll. if none is known.", reading.Unreadable.Reason);
    }

    [Fact]
    public void Digits_alone_are_no_collector() =>
        Assert.Equal("There is no name of a collector in \"4711\".", Collectors.Read("4711").Unreadable?.Reason);

    [Fact]
    public void Asks_whether_capitals_after_a_family_are_a_suffix() =>
        Assert.Contains("suffix Jr.", Collectors.Read("TORVALD JR").Question, StringComparison.Ordinal);

    [Fact]
    public void Asks_who_hides_behind_initials() =>
        Assert.Equal("Who is M.K.T.? Initials alone do not say.", Collectors.Read("M.K.T.").Question);

    [Fact]
    public void The_verbatim_text_is_kept_to_the_letter() =>
        Assert.Equal("  TORVALD,  m.k. ", Collectors.Read("  TORVALD,  m.k. ").Verbatim);

    [Fact]
    public void No_text_makes_it_throw()
    {
        foreach (var text in RandomTexts.Of(seed: 20_260_614, count: 20_000))
        {
            var reading = Collectors.Read(text);
            Assert.Equal(text, reading.Verbatim);
        }
    }

    [Theory]
    [InlineData("A. ")]
    [InlineData("Torvald, ")]
    [InlineData("& ")]
    [InlineData("((((")]
    [InlineData("Brill;")]
    [InlineData("Pell ")]
    public void Long_texts_are_read_to_their_end(string piece)
    {
        var text = string.Concat(Enumerable.Repeat(piece, 5_000));
        Assert.Equal(text, Collectors.Read(text).Verbatim);
    }

}
