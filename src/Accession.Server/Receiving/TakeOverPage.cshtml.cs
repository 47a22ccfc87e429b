using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Numbers;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Shows exactly what taking sheets over will do, before it is done.</summary>
public sealed class TakeOverPageModel(AccessionDb db, TakeOver takeOver, SeriesBehindBorne behind) : PageModel
{
    public BatchSummary Batch { get; private set; } = null!;

    public int Rows => Batch.ToTakeIn;

    /// <summary>Rows that were taken as written without a number.</summary>
    public int WithoutNumber { get; private set; }

    /// <summary>Numbers that stand on more than one of the rows.</summary>
    public int TwiceInList { get; private set; }

    /// <summary>Rows whose number a sheet of the register bears already.</summary>
    public int BorneHere { get; private set; }

    public IReadOnlyList<ShownSeries> Series { get; private set; } = [];

    /// <summary>A series that goes on behind the numbers of the list.</summary>
    public sealed record ShownSeries(string Name, string Next, string Highest, string? TooFar);

    /// <summary>
    /// Whether there is nothing to fill in a form for. What somebody sent a moment too late stands in it again.
    /// </summary>
    public bool NothingWaits => Rows == 0 && HttpMethods.IsGet(Request.Method);

    /// <summary>How many rows stood on the page that was sent.</summary>
    [BindProperty]
    public int? RowsShown { get; set; }

    [BindProperty]
    public string? Conditions { get; set; }

    [BindProperty]
    public string? Hazards { get; set; }

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        return Batch.CarriesNumbers ? Page() : Redirect($"/batch/{id}/take-in");
    }

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        var outcome = await takeOver.RunAsync(
            new(id, Conditions, Hazards, RowsShown), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals) : NotFound();
        }

        TempData["Said"] =
            $"{outcome.Value.Rows:N0} sheets are being taken over as accession {outcome.Value.AccessionNumber}.";
        return Redirect($"/batch/{id}");
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        if (await BatchSummary.OfAsync(db, id, cancellation) is not { JoinedTo: null } batch)
        {
            return false;
        }

        Batch = batch;
        var settled = db.Rows.Where(SettledRows.ToTakeIn).Where(row => row.BatchId == id);
        var numbered = settled.Where(row => row.CatalogNumber != "");
        WithoutNumber = await settled.CountAsync(row => row.CatalogNumber == "", cancellation);
        TwiceInList = await numbered.GroupBy(row => row.CatalogNumber).Where(same => same.Count() > 1)
            .Select(same => same.Key).CountAsync(cancellation);
        BorneHere = await numbered.CountAsync(
            row => db.Specimens.Any(sheet => sheet.CatalogNumber == row.CatalogNumber), cancellation);
        Series =
        [
            .. (await behind.OfAsync(settled, cancellation)).Select(ahead => new ShownSeries(
                ahead.Series.Name, ahead.Series.Pattern.Write(ahead.Series.Next, 0),
                ahead.Series.Pattern.Write(ahead.Highest, 0),
                ahead.Series.WhyTooFar(ahead.Highest, ahead.Highest - ahead.Series.Next)?.Reason)),
        ];
        return true;
    }
}
