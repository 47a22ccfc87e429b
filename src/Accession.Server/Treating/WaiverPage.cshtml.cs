using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>Lets one sheet in untreated.</summary>
public sealed class WaiverPageModel(AccessionDb db, WaiveTreatment waive) : PageModel
{
    public long Id { get; private set; }

    public string Code { get; private set; } = "";

    [BindProperty]
    public string? Reason { get; set; }

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation) =>
        await LoadAsync(id, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(long id, CancellationToken cancellation)
    {
        var outcome = await waive.RunAsync(new(id, Reason), HttpContext.Door(), cancellation);
        if (!outcome.IsRefused)
        {
            TempData["Said"] = $"{outcome.Value} may go to the collection room. Your reason stays on its trail.";
            return Redirect(SpecimenAddress.Of(outcome.Value));
        }

        ModelState.Clear();
        return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals, nameof(Reason)) : NotFound();
    }

    private async Task<bool> LoadAsync(long id, CancellationToken cancellation)
    {
        var code = await db.Parts.Where(p => p.Id == id).Select(p => p.Code).SingleOrDefaultAsync(cancellation);
        (Id, Code) = (id, code ?? "");
        return code is not null;
    }
}
