using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Mounting;

/// <summary>
/// Labels, slips and barcodes for the printer: first how many of them and on how many pages, then the pages.
/// </summary>
[Authorize(Access.Bench)]
public sealed class LabelsModel(AccessionDb db, LabelsToPrint labels, IOptions<LabelOptions> options) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public LabelKind Kind { get; set; } = LabelKind.Labels;

    [BindProperty(SupportsGet = true)]
    public string? Accession { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Sheets { get; set; }

    [BindProperty(SupportsGet = true)]
    public bool Waiting { get; set; }

    [BindProperty(SupportsGet = true)]
    public long? Roll { get; set; }

    /// <summary>What was found; null when nothing was chosen yet, or what was chosen is not there.</summary>
    public LabelsToPrint.Found? Found { get; private set; }

    /// <summary>What is printed; null while it is only counted.</summary>
    public IReadOnlyList<PrintedLabel>? Printed { get; private set; }

    public IReadOnlyList<ShownRoll> Rolls { get; private set; } = [];

    public LabelSheet Paper => options.Value.SheetOf(Kind);

    public string RequestKey { get; } = Guid.NewGuid().ToString("N");

    private bool IsChosen => Waiting || Roll is not null || !string.IsNullOrWhiteSpace(Accession)
        || !string.IsNullOrWhiteSpace(Sheets);

    private LabelsToPrint.Request Wanted => new(
        Roll is null ? Kind : LabelKind.Barcodes, Accession, Sheets, Waiting, Roll);

    public sealed record ShownRoll(long Id, string Name);

    /// <summary>What so many of them are called.</summary>
    public string Counted(int count) => Kind switch
    {
        LabelKind.Slips => count == 1 ? "1 determination slip" : $"{count:N0} determination slips",
        LabelKind.Barcodes => count == 1 ? "1 barcode" : $"{count:N0} barcodes",
        _ => count == 1 ? "1 label" : $"{count:N0} labels",
    };

    public async Task<IActionResult> OnGetAsync(CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        if (!IsChosen)
        {
            ModelState.Clear();
            return Page();
        }

        var found = await labels.CountAsync(Wanted, User.Actor(), cancellation);
        if (found.IsRefused)
        {
            ModelState.Clear();
            return this.Show(found.Refusals, nameof(Sheets));
        }

        Found = found.Value;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        var printed = await labels.RunAsync(Wanted, HttpContext.Door(), cancellation);
        if (printed.IsRefused)
        {
            ModelState.Clear();
            return this.Show(printed.Refusals, nameof(Sheets));
        }

        Printed = printed.Value;
        return Page();
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Kind = Roll is null ? Kind : LabelKind.Barcodes;
        Rolls = await db.Rolls.OrderByDescending(r => r.Id).Take(50).Select(r => new ShownRoll(r.Id, r.Name))
            .ToListAsync(cancellation);
    }
}
