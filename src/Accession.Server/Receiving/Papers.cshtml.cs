using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

// Looked at before the form's token is, which would be looked for in all of the form.
[TypeFilter<LargestPaper>(Order = 900)]
public sealed class PapersModel(
    AccessionDb db, PaperFiles files, KeepPaper keep, SetPaperAside setAside, IOptions<ReceivingOptions> options)
    : PageModel
{
    public long Id { get; private set; }

    public string Source { get; private set; } = "";

    public int MaximumPaperMegabytes => options.Value.MaximumPaperMegabytes;

    public IReadOnlyList<ShownPaper> Shown { get; private set; } = [];

    public IReadOnlyList<(PaperKind Kind, string Words)> Kinds { get; } =
        [.. Enum.GetValues<PaperKind>().Select(kind => (kind, ShownPaper.Words(kind)))];

    [BindProperty]
    public PaperKind? Kind { get; set; }

    [BindProperty]
    public string? Remark { get; set; }

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(long id, IFormFile? file, CancellationToken cancellation)
    {
        if (file is null)
        {
            return await RefusedAsync(
                id, [new(RefusalKind.Invalid, "Choose the file that holds the paper.")], "file", cancellation);
        }

        await using var content = file.OpenReadStream();
        var read = await files.ReadAsync(content, file.FileName, cancellation);
        if (read.IsRefused)
        {
            return await RefusedAsync(id, read.Refusals, "file", cancellation);
        }

        using var paper = read.Value;
        var outcome = await keep.RunAsync(new(id, Kind, Remark, paper), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return await RefusedAsync(id, outcome.Refusals, Kind is null ? nameof(Kind) : "file", cancellation);
        }

        TempData["Said"] = $"{outcome.Value.FileName} is kept with batch {id}.";
        return Redirect($"/batch/{id}/papers");
    }

    public async Task<IActionResult> OnPostSetAsideAsync(
        long id, long paper, string? reason, CancellationToken cancellation)
    {
        ModelState.Clear();
        var outcome = await setAside.RunAsync(new(id, paper, reason), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            return await RefusedAsync(id, outcome.Refusals, "", cancellation);
        }

        TempData["Said"] = $"{outcome.Value} is set aside. It stays here, with the reason.";
        return Redirect($"/batch/{id}/papers");
    }

    private async Task<IActionResult> RefusedAsync(
        long id, IReadOnlyList<Refusal> refusals, string field, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? this.Show(refusals, field) : NotFound();

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        var source = await db.Batches.Where(b => b.Id == id && b.JoinedToBatchId == null).Select(b => b.Source.Name)
            .SingleOrDefaultAsync(cancellation);
        if (source is null)
        {
            return false;
        }

        (Id, Source) = (id, source);
        Shown = await ShownPaper.OfAsync(db, id, cancellation);
        return true;
    }
}
