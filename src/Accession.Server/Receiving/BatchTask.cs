namespace Accession.Server.Receiving;

/// <summary>One thing to do with a batch: whether it is done, what blocks it, and where to do it.</summary>
public sealed record BatchTask(string Name, string? Address, string Mark, string State, string Says)
{
    public static IReadOnlyList<BatchTask> For(BatchSummary batch, bool isBusy)
    {
        var address = $"/batch/{batch.Id}";
        if (batch.Latest.RefusedBecause is not null && !isBusy)
        {
            return
            [
                new("Read the list", null, "stop", "Not read", "Send it again as CSV or XLSX with the form below."),
            ];
        }

        if (!batch.Latest.IsRead || isBusy)
        {
            var state = isBusy ? "Running" : "Waiting";
            return [new("Read the list", null, "waiting", state, "Rows appear when it is done.")];
        }

        return
        [
            .. WhichList(batch, address),
            Columns(batch, address),
            Order(batch, address),
            new("Settle the open rows", $"{address}/rows?show=open",
                batch.Open == 0 ? "done" : "waiting",
                batch.Open == 0 ? "None open" : $"{batch.Open:N0} open",
                "Rows with something that could not be read. They hold up nobody but themselves."),
            .. batch.CarriesNumbers
                ? TakeOver(batch, address)
                : [Findings(batch, address), TakeIn(batch, address), Number(batch)],
            Close(batch, address),
        ];
    }

    // What is taken over is not compared first, and has its numbers; only a row without one leaves a sheet to number.
    private static BatchTask[] TakeOver(BatchSummary batch, string address)
    {
        const string name = "Take the sheets over";
        var take = batch switch
        {
            { AsksWhichList: true } => new BatchTask(
                name, null, "none", $"{batch.ToTakeIn:N0} settled", "Say first which list this is."),
            { ToTakeIn: > 0 } => new(name, $"{address}/take-over", "waiting", $"{batch.ToTakeIn:N0} settled",
                "Each with the number it bears. What will happen is shown first."),
            { InRegister: > 0 } => new(name, null, "done", $"{batch.InRegister:N0} in the register",
                $"Accession {batch.AccessionNumber}."),
            _ => new(name, null, "none", "Nothing settled yet", "Settle rows first."),
        };
        return batch.SheetsToNumber > 0 ? [take, Number(batch)] : [take];
    }

    private static BatchTask[] WhichList(BatchSummary batch, string address) => batch.AsksWhichList
        ? [new("Say which list this is", $"{address}#which-list", "stop", $"Like batch {batch.Like!.BatchId}",
            "Nothing goes into the register before: its rows could go in twice.")]
        : [];

    private static BatchTask Columns(BatchSummary batch, string address) => batch switch
    {
        { Lacks: [var lack, ..] } => new(
            "Match the columns", $"{address}/columns", "stop", "A column is missing", lack),
        _ => new("Match the columns", $"{address}/columns",
            batch.UnmatchedColumns == 0 ? "done" : "none",
            batch.UnmatchedColumns == 0 ? "All matched" : $"{batch.UnmatchedColumns} kept to the letter only",
            "Which column means what. Remembered for the next list of this source."),
    };

    private static BatchTask Order(BatchSummary batch, string address) => batch switch
    {
        { NeedsOrder: true } => new("Settle day and month", $"{address}#order", "stop",
            $"{batch.Dates.Either:N0} dates wait", "Dates in figures that can be read either way."),
        { Dates.Either: > 0 } => new("Settle day and month", null, "done", "Settled",
            "Dates in figures are read the way that was settled."),
        _ => new("Settle day and month", null, "none", "Not needed", "No date of this list can be read two ways."),
    };

    private static BatchTask Findings(BatchSummary batch, string address) => new(
        "Settle what was found", $"{address}/findings",
        batch.Undecided > 0 ? "waiting" : batch.Asked > 0 ? "waiting" : "done",
        (batch.Undecided, batch.Asked) switch
        {
            (0, 0) => "Nothing open",
            (0, var asked) => $"{asked:N0} asked",
            (var open, 0) => $"{open:N0} open",
            var (open, asked) => $"{open:N0} open, {asked:N0} asked",
        },
        "Rows whose gathering seems to be here already, or whose number clashes with another.");

    private static BatchTask TakeIn(BatchSummary batch, string address) => batch switch
    {
        { AsksWhichList: true } => new("Take the settled rows into the register", null, "none",
            $"{batch.ToTakeIn:N0} settled", "Say first which list this is."),
        { ToTakeIn: > 0 } => new("Take the settled rows into the register", $"{address}/take-in", "waiting",
            $"{batch.ToTakeIn:N0} settled", "An accession number, the terms, and the count of the pile."),
        { InRegister: > 0 } => new("Take the settled rows into the register", null, "done",
            $"{batch.InRegister:N0} in the register", $"Accession {batch.AccessionNumber}."),
        _ => new("Take the settled rows into the register", null, "none", "Nothing settled yet", "Settle rows first."),
    };

    private static BatchTask Close(BatchSummary batch, string address) => batch switch
    {
        { Closed: { } closed } => new("Close the batch", $"{address}/closing", "done", "Closed",
            $"By {closed.By}. It takes nothing more until it is opened again."),
        { AccessionNumber: null } => new("Close the batch", null, "none", "Not yet",
            "When the sheets are numbered, the list is checked against them."),
        _ => new("Close the batch", $"{address}/closing", "waiting", "Open",
            "The list is checked against the sheets, gathering by gathering."),
    };

    private static BatchTask Number(BatchSummary batch) => batch.AccessionNumber is { } number
        ? new("Number the sheets in hand", $"/accession/{number}/numbering",
            batch.SheetsToNumber == 0 ? "done" : "waiting",
            batch.SheetsToNumber == 0 ? "All numbered" : $"{batch.SheetsToNumber:N0} sheets wait",
            "Scan or issue a number for each sheet of the pile.")
        : new("Number the sheets in hand", null, "none", "Not yet",
            "Sheets are numbered once they are in the register.");
}
