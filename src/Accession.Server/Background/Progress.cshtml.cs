using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Background;

[Authorize(Access.Staff)]
public sealed class ProgressModel(AccessionDb db) : PageModel
{
    public ShownProgress Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(long id, CancellationToken cancellation)
    {
        if (await ShownProgress.OfAsync(db, id, cancellation) is not { } shown)
        {
            return NotFound();
        }

        Shown = shown;
        if (shown.IsFinished)
        {
            // The page that waited shows the result itself.
            Response.Headers["HX-Refresh"] = "true";
        }

        return Page();
    }
}

/// <summary>How far a piece of work is, for people.</summary>
public sealed record ShownProgress(
    long Id, string Kind, long Done, long Total, DateTime WantedAt, DateTime? FinishedAt,
    string? Failure, string? Result)
{
    public bool IsFinished => FinishedAt is not null;

    public static Task<ShownProgress?> OfAsync(AccessionDb db, long id, CancellationToken cancellation) =>
        Shown(db.Work.Where(work => work.Id == id)).SingleOrDefaultAsync(cancellation);

    /// <summary>The latest work of a kind on a subject; null when there never was any.</summary>
    public static Task<ShownProgress?> LatestAsync(
        AccessionDb db, string kind, long subject, CancellationToken cancellation) =>
        Shown(db.Work.Where(work => work.Kind == kind && work.Subject == subject).OrderByDescending(work => work.Id))
            .FirstOrDefaultAsync(cancellation);

    private static IQueryable<ShownProgress> Shown(IQueryable<WorkRow> work) => work.Select(w => new ShownProgress(
        w.Id, w.Kind, w.Done, w.Total, w.WantedAt, w.FinishedAt, w.Failure, w.Result));
}
