using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Sets a paper aside with a reason; it stays, and is shown as withdrawn.</summary>
public sealed class SetPaperAside(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long BatchId, long PaperId, string? Reason);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "set a paper aside", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (!door.By.MaySeePapers)
                {
                    return new Refusal(RefusalKind.NotAllowed, "Papers are for curators: they may name exact places.");
                }

                var paper = await db.Papers.SingleOrDefaultAsync(
                    p => p.Id == request.PaperId && db.WithJoined(request.BatchId).Contains(p.BatchId), cancellation);
                return paper is null ? new Refusal(RefusalKind.NotFound, "There is no such paper with this batch.")
                    : paper.SetAside(act) is { } refusal ? refusal
                    : paper.FileName;
            },
            cancellation);
    }
}
