using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

public sealed class BatchesModel(
    AccessionDb db, ReceiveList receive, ReceivedFiles files, IOptions<ReceivingOptions> options) : PageModel
{
    private const int PageSize = 50;
    private const int MostSources = 500;

    [BindProperty]
    public string? SourceName { get; set; }

    [BindProperty]
    public IFormFile? List { get; set; }

    /// <summary>Whether the sheets bear the numbers that they keep.</summary>
    [BindProperty]
    public bool CarriesNumbers { get; set; }

    public int MaximumFileMegabytes => options.Value.MaximumFileMegabytes;

    public IReadOnlyList<ListedBatch> Shown { get; private set; } = [];

    public IReadOnlyList<string> Sources { get; private set; } = [];

    public long? Next { get; private set; }

    public Task OnGetAsync(long? before, CancellationToken cancellation) => LoadAsync(before, cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        if (List is null)
        {
            ModelState.AddModelError(nameof(List), "Choose the file that holds the list.");
            await LoadAsync(null, cancellation);
            return new PageResult { StatusCode = StatusCodes.Status422UnprocessableEntity };
        }

        await using var content = List.OpenReadStream();
        var kept = await files.KeepAsync(content, List.FileName, cancellation);
        var outcome = await receive.RunAsync(
            new(SourceName, null, kept, CarriesNumbers), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(null, cancellation);
            return this.Show(outcome.Refusals, nameof(SourceName));
        }

        TempData["Said"] = outcome.Value.WasHere
            ? "This very list was received before: nothing was changed. Here is its batch."
            : $"{kept.FileName} is here as batch {outcome.Value.BatchId}. It is being read.";
        return Redirect($"/batch/{outcome.Value.BatchId}");
    }

    private async Task LoadAsync(long? before, CancellationToken cancellation)
    {
        var batches = await ListedBatch.BeforeAsync(db, before, PageSize + 1, cancellation);
        Shown = [.. batches.Take(PageSize)];
        Next = batches.Count > PageSize ? Shown[^1].Id : null;
        Sources = await db.Sources.OrderBy(source => source.FoldedName).Select(source => source.Name)
            .Take(MostSources).ToListAsync(cancellation);
    }
}
