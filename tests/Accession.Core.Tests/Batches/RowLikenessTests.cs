using Accession.Core.Batches;
using Accession.Core.Gatherings;

namespace Accession.Tests.Batches;

public sealed class RowLikenessTests
{
    private static readonly ListReader Reader = new(
        ColumnMatch.Propose(["Collector", "Number", "Date", "Species", "Locality"]),
        new ListSettings(DayMonthOrder.DayFirst, new DateOnly(2026, 1, 1)));

    // Common practice, no published source: one slip in five facts is a correction; two are another gathering.
    [Theory]
    [InlineData("A. Quill,104,2024-05-01,Poa annua L.,Mill lane", true)]                // spellings that read alike
    [InlineData("Ada Quill,140,2024-05-01,Poa annua L.,Mill lane", true)]
    [InlineData("Ada Quill,,2024-05-01,Poa annua L.,Mill lane", true)]
    [InlineData("Bo Fenn,104,2024-05-01,Poa annua L.,Mill lane", true)]
    [InlineData("Ada Quill,104,2024-05-10,Poa annua L.,Mill lane", true)]
    [InlineData("Ada Quill,104,2024-05-01,Poa trivialis L.,Mill lane", true)]
    [InlineData("Ada Quill,104,2024-05-01,Poa annua L.,MILL LANE N", true)]
    [InlineData("Ada Quill,140,2024-05-01,Poa trivialis L.,Mill lane", false)]
    [InlineData("Bo Fenn,140,2024-05-01,Poa annua L.,Mill lane", false)]
    public void Rows_are_alike_when_all_but_one_fact_agree(string other, bool alike)
    {
        var row = Signatures("Ada Quill,104,2024-05-01,Poa annua L.,Mill lane");

        Assert.Equal(alike, row.Intersect(Signatures(other)).Any());
    }

    [Fact]
    public void A_row_that_says_little_is_like_no_other()
    {
        Assert.Empty(Signatures(",,2024-05-01,Poa annua L.,"));
        Assert.Empty(Signatures("Ada Quill,104,2024-05-01,,").Intersect(Signatures("Ada Quill,105,2024-05-01,,")));
    }

    private static IReadOnlyList<long> Signatures(string row) =>
        RowLikeness.AllButOne(Reader.Read(new RowCells(row.Split(','), [])));
}
