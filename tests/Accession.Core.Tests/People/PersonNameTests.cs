using Accession.Core.People;

namespace Accession.Core.Tests.People;

/// <summary>All names are invented.</summary>
public sealed class PersonNameTests
{
    [Theory]
    [InlineData("M. K. Torvald", "MK Torvald")]            // stops and spaces carry no meaning
    [InlineData("Torvald, M.K.", "m. k. TORVALD")]
    [InlineData("Torvald, M.K., Jr", "M. K. Torvald, Jr.")]
    [InlineData("A. Pérgola-Vey", "A. Pergola-Vey")]       // accents
    [InlineData("H. van der Molen", "Van der Molen, H.")]
    [InlineData("H. v.d. Molen", "Molen, H. van der")]
    public void Is_equal_where_only_the_spelling_differs(string one, string other)
    {
        Assert.Equal(Name(one), Name(other));
        Assert.Equal(Name(one).GetHashCode(), Name(other).GetHashCode());
    }

    [Theory]
    [InlineData("M. K. Torvald", "Mark K. Torvald")]       // compatible, not equal
    [InlineData("M. Torvald", "M. K. Torvald")]
    [InlineData("M. K. Torvald, Jr.", "M. K. Torvald")]    // possibly father and son
    [InlineData("O. Ferrero G.", "Ferrero Garrido, O.")]
    [InlineData("A. Pérgola-Vey", "A. Pergola")]
    public void Is_not_equal_where_something_is_added(string one, string other) =>
        Assert.NotEqual(Name(one), Name(other));

    [Theory]
    [InlineData("M. K. Torvald", "Mark Torvald", true)]
    [InlineData("M. Torvald", "Torvald", true)]
    [InlineData("M. K. Torvald", "M. L. Torvald", false)]
    [InlineData("Mark Torvald", "Mary Torvald", false)]
    [InlineData("M. Torvald Jr.", "M. Torvald III", false)]
    [InlineData("M. Torvald Jr.", "M. Torvald", true)]
    [InlineData("Ö. Brüll", "O. Bruell", true)]            // ü is u or ue
    [InlineData("A. Ferrez-Quirola", "A. Ferrez Quirola", true)]
    [InlineData("O. Ferrero G.", "Ferrero Garrido, O.", true)]
    [InlineData("O. Ferrero G.", "Ferrero Landívar, O.", false)]
    [InlineData("Han Min-seo", "M. S. Han", true)]         // a hyphen makes two initials
    public void Says_whether_two_names_may_be_one_person(string one, string other, bool expected)
    {
        Assert.Equal(expected, Name(one).IsCompatibleWith(Name(other)));
        Assert.Equal(expected, Name(other).IsCompatibleWith(Name(one)));
    }

    [Theory]
    [InlineData("A. Pérgola-Vey", "pergolavey")]
    [InlineData("H. van der Molen", "molen")]              // the particle stands apart
    [InlineData("Van der Molen H.", "molen")]
    [InlineData("R. A. Quental e Prado", "prado")]         // the last of a Portuguese pair
    [InlineData("O. Møllås", "mollas")]
    [InlineData("林小梅", "林")]
    public void Folds_the_family_for_comparing(string text, string key) => Assert.Equal(key, Name(text).FamilyKey);

    [Theory]
    [InlineData("Mark K. Torvald", "mk")]
    [InlineData("J.-P. Torvald", "jp")]
    [InlineData("Torvald", "")]
    public void Has_initials(string text, string initials) => Assert.Equal(initials, Name(text).Initials);

    [Theory]
    [InlineData("Torvald,M.K., Jr.", "M.K. Torvald, Jr.", "Torvald, M.K., Jr.")]
    [InlineData("H. van der Molen", "H. van der Molen", "Molen, H. van der")]
    [InlineData("Ferrero Landívar, O.", "O. Ferrero Landívar", "Ferrero Landívar, O.")]
    [InlineData("Torvald", "Torvald", "Torvald")]
    public void Shows_itself_in_both_orders(string text, string spoken, string inverted)
    {
        Assert.Equal(spoken, Name(text).ToString());
        Assert.Equal(inverted, Name(text).DisplayInverted);
    }

    private static PersonName Name(string text) => Assert.Single(Collectors.Read(text).Value.Persons);
}
