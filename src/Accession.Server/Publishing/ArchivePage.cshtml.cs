using Accession.Core.Localities;
using Accession.Core.Standards.DarwinCore;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Publishing;

public sealed class ArchivePageModel(AccessionDb db, WantArchive want, ArchiveFolder folder) : PageModel
{
    private const int MostShown = 50;

    public ShownProgress? Running { get; private set; }

    public IReadOnlyList<ShownArchive> Archives { get; private set; } = [];

    public int Specimens { get; private set; }

    public int Protected { get; private set; }

    /// <summary>So that a button pressed twice asks once.</summary>
    public string RequestKey { get; } = Guid.NewGuid().ToString("N");

    /// <summary>An archive that was built; no file any more when somebody took it away.</summary>
    public sealed record ShownArchive(BuildArchiveWork.Result Built, DateTime At, bool IsThere);

    /// <summary>The columns that fare alike when a place is protected, by their headings.</summary>
    public static string Columns(WhenProtected what) => string.Join(
        ", ", OccurrenceColumns.File.Columns.Where(column => column.WhenProtected == what).Select(c => c.Heading));

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var outcome = await want.RunAsync(new(InBackground: true), HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync(cancellation);
            return this.Show(outcome.Refusals);
        }

        TempData["Said"] = "The archive is being built. It appears in the list when it is whole.";
        return Redirect("/archive");
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        var latest = await ShownProgress.LatestAsync(
            db, BuildArchiveWork.Kind, BuildArchiveWork.TheDataset, cancellation);
        Running = latest is { IsFinished: false } or { Failure: not null } or { WasCancelled: true } ? latest : null;
        Specimens = await db.Specimens.CountAsync(cancellation);
        Protected = await db.Specimens.CountAsync(
            specimen => specimen.Gathering.Protection != SensitivityCategory.NotSensitive, cancellation);
        var built = await db.Work
            .Where(work => work.Kind == BuildArchiveWork.Kind && work.Result != null)
            .OrderByDescending(work => work.Id)
            .Take(MostShown)
            .Select(work => new { work.Result, work.FinishedAt })
            .ToListAsync(cancellation);
        Archives =
        [
            .. built.Select(work => (Archive: BuildArchiveWork.Result.Read(work.Result)!, At: work.FinishedAt!.Value))
                .Select(work => new ShownArchive(
                    work.Archive, work.At, folder.Find(work.Archive.FileName) is not null)),
        ];
    }
}
