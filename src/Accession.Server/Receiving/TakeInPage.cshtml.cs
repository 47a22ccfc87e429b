using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Receiving;

public sealed class TakeInPageModel(AccessionDb db, TakeIn takeIn) : PageModel
{
    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public int Open { get; private set; }

    /// <summary>The sheets of the rows taken in before, and those counted then; null before the first.</summary>
    public BatchSummary.Counted? Before { get; private set; }

    public int Rows { get; private set; }

    /// <summary>
    /// Whether there is nothing to fill in a form for. What somebody sent a moment too late stands in it again,
    /// whatever became of the rows.
    /// </summary>
    public bool NothingWaits => Rows == 0 && HttpMethods.IsGet(Request.Method);

    public int Sheets { get; private set; }

    /// <summary>Rows that lie outside, or may lie outside, of the permits: they go in all the same.</summary>
    public int OutsidePermits { get; private set; }

    public string? AccessionNumber { get; private set; }

    public IReadOnlyList<string> Lacks { get; private set; } = [];

    /// <summary>How many rows stood on the page that was sent.</summary>
    [BindProperty]
    public int? RowsShown { get; set; }

    [BindProperty]
    public AccessionTerms? Terms { get; set; }

    [BindProperty]
    public int? SheetsInPile { get; set; }

    [BindProperty]
    public string? CountNote { get; set; }

    [BindProperty]
    public string? Conditions { get; set; }

    [BindProperty]
    public string? ConditionOnArrival { get; set; }

    [BindProperty]
    public string? Hazards { get; set; }

    public IReadOnlyList<(AccessionTerms Terms, string Words)> AllTerms { get; } =
    [
        (AccessionTerms.Gift, "Gift"),
        (AccessionTerms.Exchange, "Exchange"),
        (AccessionTerms.FieldCollection, "Field collection"),
        (AccessionTerms.Transfer, "Transfer"),
        (AccessionTerms.Purchase, "Purchase"),
    ];

    private bool CarriesNumbers { get; set; }

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        return CarriesNumbers ? Redirect($"/batch/{id}/take-over") : Page();
    }

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        var statement = Terms is { } terms && SheetsInPile is { } pile
            ? new AccessionLot.Statement(terms, pile, CountNote, Conditions, ConditionOnArrival, Hazards)
            : null;
        PileCount? joining = SheetsInPile is { } counted ? new(counted, CountNote) : null;
        var outcome = await takeIn.RunAsync(
            new(id, statement, joining, RowsShown), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            // Loaded now, the page shows the rows as they are after whatever somebody else did.
            return await LoadAsync(id, cancellation)
                ? this.Show(outcome.Refusals, FieldOf(outcome.Refusals[0]))
                : NotFound();
        }

        var taken = outcome.Value;
        TempData["Said"] =
            $"{taken.Rows:N0} rows go into the register as accession {taken.AccessionNumber}. "
            + $"Next: number the {taken.Sheets:N0} sheets.";
        return Redirect($"/batch/{id}");
    }

    private string FieldOf(Refusal refusal) => refusal.Kind switch
    {
        RefusalKind.Invalid when Terms is null && Before is null => nameof(Terms),
        RefusalKind.Invalid => SheetsInPile is null ? nameof(SheetsInPile) : nameof(CountNote),
        _ => "",
    };

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        if (await BatchSummary.OfAsync(db, id, cancellation) is not { JoinedTo: null } batch)
        {
            return false;
        }

        (Id, Source, AccessionNumber) = (id, batch.Source, batch.AccessionNumber);
        CarriesNumbers = batch.CarriesNumbers;
        (Open, Before, OutsidePermits) = (batch.Open, batch.Pile, batch.OutsidePermits);
        (Rows, Sheets, Lacks) = (batch.ToTakeIn, batch.SheetsToTakeIn, batch.Lacks);
        return true;
    }
}
