using System.Linq.Expressions;
using Accession.Core.Batches;

namespace Accession.Server.Receiving;

/// <summary>Which rows of a batch are shown, and in what words.</summary>
public sealed record RowView(
    string Name, string Tab, string Heading, string Says, string WhenEmpty, Expression<Func<BatchRow, bool>> Which)
{
    public static RowView Open { get; } = new(
        "open", "Open", "Open rows",
        "Something in each of these could not be read. Take it as written, or ask for a corrected list.",
        "No row is open.", SettledRows.Open);

    public static IReadOnlyList<RowView> All { get; } =
    [
        Open,
        new("settled", "Settled", "Settled rows", "Ready to be taken into the register.",
            "No settled row is waiting.", SettledRows.ToTakeIn),
        new("in", "In the register", "Rows in the register",
            "Each of these is a gathering now, or its sheets are counted under one.",
            "No row of this batch is in the register yet.",
            row => row.GatheringId != null && row.SupersededById == null),
        new("changed", "Changed", "Changed rows", "The latest list corrects what an earlier one said.",
            "The latest list changed no row.", ChangedRows),
        new("permits", "Outside permits", "Rows outside the permits",
            "No permit of the batch covers these, or none does for certain. Nothing holds them up: what a permit "
            + "allows is decided by whoever issued it.",
            "No row lies outside the permits of the batch.", SettledRows.OutsidePermits),
        new("withdrawn", "Withdrawn", "Withdrawn rows", "These stood in an earlier list and no longer do.",
            "No row was withdrawn.", row => row.WithdrawnInListId != null && row.SupersededById == null),
        new("all", "All", "All rows", "Every row that stands in the latest list.", "This list has no rows.",
            SettledRows.Standing),
    ];

    public static RowView Named(string? name) => All.FirstOrDefault(view => view.Name == name) ?? Open;

    // Told apart by the page, which also needs the row that each corrects.
    private static Expression<Func<BatchRow, bool>> ChangedRows => SettledRows.Standing;

    public bool IsChanged => Name == "changed";
}
