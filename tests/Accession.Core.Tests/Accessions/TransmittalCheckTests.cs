using Accession.Core.Accessions;

namespace Accession.Core.Tests.Accessions;

/// <summary>What keeps a batch from being closed.</summary>
public sealed class TransmittalCheckTests
{
    private static readonly TransmittalCheck Agrees = new(57, 57, 57, 55, 2, 0, 0, 0, [], []);

    [Fact]
    public void What_agrees_needs_no_note() => Assert.Empty(Agrees.WhyNot(null));

    [Theory]
    [InlineData(null)]
    [InlineData(" - ")]
    [InlineData("57")]
    public void A_transmittal_of_57_and_56_rows_needs_a_note_in_words(string? note)
    {
        var check = Agrees with { SheetsOnList = 56, SheetsInPile = 56 };
        var refusal = Assert.Single(check.WhyNot(note));
        Assert.Contains("states 57 sheets, and the rows taken in promise 56 sheets", refusal.Reason, StringComparison.Ordinal);
        Assert.Empty(check.WhyNot("Number 12 was not in the parcel."));
    }

    [Fact]
    public void Missing_and_extra_sheets_need_a_note()
    {
        TransmittalCheck.Differing[] sheets = [new(1, "Quill", "12", "Poa annua", 2)];
        Assert.Contains("Missing: 2 sheets of 1 gathering,",
            Assert.Single((Agrees with { Missing = sheets }).WhyNot("")).Reason, StringComparison.Ordinal);
        Assert.Contains("more than the list promised",
            Assert.Single((Agrees with { Extra = sheets }).WhyNot("")).Reason, StringComparison.Ordinal);
        Assert.Empty((Agrees with { Missing = sheets, Extra = sheets }).WhyNot("asked the sender"));
    }

    [Fact]
    public void Rows_that_wait_cannot_be_explained_away()
    {
        var check = Agrees with { OpenRows = 1, UndecidedRows = 2, SettledRows = 3 };
        Assert.Equal(3, check.WhyNot("never mind them").Count());
    }
}
