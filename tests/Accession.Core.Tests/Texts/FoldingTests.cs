using Accession.Core.Batches;
using Accession.Core.Standards.Countries;
using Accession.Core.Texts;

namespace Accession.Core.Tests.Texts;

/// <summary>Spellings from memory of labels; no published source.</summary>
public sealed class FoldingTests
{
    [Theory]
    [InlineData("Pérgola-Vey", "pergola-vey")]
    [InlineData("  Øst Å ", "  ost a ")]
    [InlineData("STRASSE 5", "strasse 5")]
    [InlineData("Straße 5", "strasse 5")]
    [InlineData("Ægir œuvre", "aegir oeuvre")]
    [InlineData("ﬁeld ½", "field 1⁄2")]
    [InlineData("Łódź", "lodz")]
    public void A_whole_text_keeps_its_blanks_and_signs(string text, string folded) =>
        Assert.Equal(folded, Folding.Fold(text));

    [Theory]
    [InlineData("a\uD800b")]
    [InlineData("a\uDC00b")]
    [InlineData("a\uFFFEb")]
    [InlineData("é\uFFFF")]
    public void What_is_no_text_is_folded_without_falling_over(string text)
    {
        var folded = Folding.Fold(text);

        Assert.Equal(folded, Folding.Fold(folded));
        Assert.Null(CountryCode.Of(text));
        Assert.Null(Assert.Single(ColumnMatch.Propose([text]).Columns).Field);
    }
}
