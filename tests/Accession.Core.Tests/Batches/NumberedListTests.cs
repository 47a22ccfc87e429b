using Accession.Core.Batches;
using Accession.Core.Gatherings;

namespace Accession.Core.Tests.Batches;

/// <summary>Lists of sheets that bear their numbers already.</summary>
public sealed class NumberedListTests
{
    [Fact]
    public void The_number_of_a_sheet_is_ours_only_where_the_sheets_keep_theirs()
    {
        string[] headings = ["catalogNumber", "Barcode", "Collector"];
        Assert.Equal(["otherCatalogNumbers", "otherCatalogNumbers", "recordedBy"], Fields(headings, false));
        Assert.Equal(["catalogNumber", "otherCatalogNumbers", "recordedBy"], Fields(headings, true));
        // Where no column says so itself, the likeliest has it.
        Assert.Equal(["otherCatalogNumbers", "catalogNumber"], Fields(["Sheet no.", "Catalog no."], true));
        // What was remembered of a sender's list does not stand in the way.
        var remembered = new Dictionary<string, string> { ["Barcode"] = "otherCatalogNumbers" };
        Assert.Equal("catalogNumber",
            ColumnMatch.Propose(["Barcode"], remembered, carriesNumbers: true).Columns[0].Field!.Name);
        Assert.Equal("otherCatalogNumbers",
            ColumnMatch.Propose(["Nr"], new Dictionary<string, string> { ["Nr"] = "catalogNumber" }).Columns[0].Field!.Name);
    }

    [Fact]
    public void A_list_without_a_column_of_numbers_lacks_just_that()
    {
        Assert.Contains("the number that each sheet bears",
            Assert.Single(ColumnMatch.Propose(["Locality"], null, carriesNumbers: true).Lacks), StringComparison.Ordinal);
        Assert.Empty(ColumnMatch.Propose(["Catalog no."], null, carriesNumbers: true).Lacks);
    }

    [Fact]
    public void A_row_is_known_by_the_number_of_its_sheet()
    {
        var row = Read("H-1", "Ada Quill", "12", "");
        Assert.Equal(("H-1", "sheet|H-1", 1), (row.CatalogNumber, row.PairKey, row.Sheets));
        Assert.Empty(row.Faults);
    }

    [Fact]
    public void A_row_without_a_number_is_open_and_known_as_any_other()
    {
        var row = Read("", "Ada Quill", "12", "");
        Assert.Equal(("", "quill||12|"), (row.CatalogNumber, row.PairKey));
        Assert.True(Assert.Single(row.Faults).Blocks);
    }

    [Fact]
    public void One_number_is_one_sheet_whatever_the_list_says_of_duplicates()
    {
        var row = Read("H-1", "Ada Quill", "12", "3");
        Assert.Equal(1, row.Sheets);
        Assert.False(Assert.Single(row.Faults).Blocks);
    }

    private static IEnumerable<string?> Fields(string[] headings, bool carriesNumbers) =>
        ColumnMatch.Propose(headings, null, carriesNumbers).Columns.Select(column => column.Field?.Name);

    private static RowReading Read(params string[] cells) => new ListReader(
        ColumnMatch.Propose(["Catalog no.", "Collector", "Number", "Sheets"], null, carriesNumbers: true),
        new ListSettings(DayMonthOrder.DayFirst, new DateOnly(2026, 1, 1)) { CarriesNumbers = true })
        .Read(new RowCells(cells, []));
}
