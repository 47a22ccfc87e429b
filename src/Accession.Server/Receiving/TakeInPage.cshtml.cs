using Accession.Core.Accessions;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Receiving;

public sealed class TakeInPageModel(AccessionDb db, TakeIn takeIn) : PageModel
{
    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public int Rows { get; private set; }

    public int Sheets { get; private set; }

    public string? AccessionNumber { get; private set; }

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

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        var statement = Terms is { } terms && SheetsInPile is { } pile
            ? new AccessionLot.Statement(terms, pile, CountNote, Conditions, ConditionOnArrival, Hazards)
            : null;
        var outcome = await takeIn.RunAsync(new(id, statement), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals, nameof(SheetsInPile));
        }

        var taken = outcome.Value;
        TempData["Said"] =
            $"{taken.Rows:N0} rows go into the register as accession {taken.AccessionNumber}. "
            + $"Next: number the {taken.Sheets:N0} sheets.";
        return Redirect($"/batch/{id}");
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        if (await BatchSummary.OfAsync(db, id, cancellation) is not { JoinedTo: null } batch)
        {
            return false;
        }

        (Id, Source, AccessionNumber) = (id, batch.Source, batch.AccessionNumber);
        (Rows, Sheets) = (batch.ToTakeIn, batch.SheetsToTakeIn);
        return true;
    }
}
