using Accession.Core.Accessions;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Keeps a paper with a batch.</summary>
public sealed class KeepPaper(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long BatchId, PaperKind? Kind, string? Remark, ReadPaper Paper);

    public sealed record Kept(long PaperId, string FileName);

    public Task<Outcome<Kept>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "keep a paper", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => KeepAsync(request, door, act, cancellation), cancellation);
    }

    private async Task<Outcome<Kept>> KeepAsync(Request request, Door door, Act act, CancellationToken cancellation)
    {
        if (!door.By.MaySeePapers)
        {
            return new Refusal(RefusalKind.NotAllowed, "Papers are for curators: they may name exact places.");
        }

        var batch = await db.Batches.AsNoTracking()
            .SingleOrDefaultAsync(b => b.Id == request.BatchId && b.JoinedToBatchId == null, cancellation);
        if (batch is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {request.BatchId}.");
        }

        var file = request.Paper.File;
        var same = await db.Papers
            .Where(p => db.WithJoined(batch.Id).Contains(p.BatchId) && p.Sha256 == file.Sha256
                && p.SetAsideActId == null)
            .Select(p => new { p.FileName, p.Act.ActorName }).FirstOrDefaultAsync(cancellation);
        if (same is not null)
        {
            return new Refusal(RefusalKind.Conflict,
                $"This very file is there already: {same.FileName}, kept by {same.ActorName}. Nothing was changed.");
        }

        var paper = Paper.Of(batch, request.Kind, file, request.Remark, act);
        if (paper.IsRefused)
        {
            return paper.Refusals.ToList();
        }

        db.Add(paper.Value);
        await db.SaveChangesAsync(cancellation);
        // Before the act is committed: a file without a row harms nobody, a row without its file would.
        request.Paper.Keep();
        return new Kept(paper.Value.Id, paper.Value.FileName);
    }
}
