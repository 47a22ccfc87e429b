using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Receives a list of vouchers from a source: a new batch, or a batch's list again.</summary>
public sealed class ReceiveList(AccessionDb db, ReceivedFiles files, TimeProvider clock)
{
    /// <param name="SourceName">Who sends it; a new name makes a new source.</param>
    /// <param name="BatchId">The batch whose list this is again; null when nobody says so.</param>
    /// <param name="CarriesNumbers">Whether the sheets of a new batch bear the numbers that they keep.</param>
    public sealed record Request(
        string? SourceName, long? BatchId, ReceivedList.KeptFile File, bool CarriesNumbers = false)
    {
        /// <summary>
        /// What columns of a new batch were chosen to mean before it is read: heading to the name of the meaning,
        /// empty for none; null when nobody chose.
        /// </summary>
        public IReadOnlyDictionary<string, string>? Meanings { get; init; }
    }

    /// <param name="WasHere">The very same file was received before: nothing was changed.</param>
    public sealed record Receipt(long BatchId, bool WasHere);

    public async Task<Outcome<Receipt>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "receive a list", clock.GetUtcNow().UtcDateTime);
        var outcome = await db.CarryOutAsync(door, act, () => ReceiveAsync(request, act, cancellation), cancellation);
        // The answer to a form that came twice is that of the first time, whose file is another one.
        if (outcome.IsRefused || !await db.Lists.AnyAsync(list => list.KeptAs == request.File.KeptAs, cancellation))
        {
            files.Discard(request.File);
        }

        return outcome;
    }

    private async Task<Outcome<Receipt>> ReceiveAsync(Request request, Act act, CancellationToken cancellation)
    {
        if (request.File.Bytes == 0)
        {
            return new Refusal(RefusalKind.Invalid, "The file is empty. Choose the list and send it again.");
        }

        var batch = await BatchAsync(request, act, cancellation);
        if (batch.IsRefused)
        {
            return batch.Refusals.ToList();
        }

        var sourceId = batch.Value.Source.Id;
        var same = await db.Lists
            .Where(list => list.Sha256 == request.File.Sha256 && list.Batch.SourceId == sourceId
                && list.RefusedBecause == null)
            .OrderByDescending(list => list.BatchId == request.BatchId).ThenBy(list => list.Id)
            .Select(list => (long?)list.BatchId)
            .FirstOrDefaultAsync(cancellation);
        if (same is { } batchId)
        {
            if (request.BatchId is { } wanted && wanted != batchId)
            {
                return new Refusal(RefusalKind.Conflict,
                    $"This very list is here already: it is batch {batchId}. Nothing was changed; go on there.");
            }

            // Nothing was added to the tracker that should stay: the act alone tells that the file came again.
            db.ChangeTracker.Clear();
            db.Add(act);
            return new Receipt(batchId, WasHere: true);
        }

        var list = batch.Value.Receive(request.File, act);
        if (batch.Value.Id == 0)
        {
            db.Add(batch.Value);
        }

        await db.SaveChangesAsync(cancellation);
        db.Add(WorkRow.Wanted(ReadListWork.Kind, list.Id, act));
        return new Receipt(batch.Value.Id, WasHere: false);
    }

    private async Task<Outcome<Batch>> BatchAsync(Request request, Act act, CancellationToken cancellation)
    {
        if (request.BatchId is { } id)
        {
            var known = await db.Batches.Include(batch => batch.Source).Include(batch => batch.Lists)
                .SingleOrDefaultAsync(batch => batch.Id == id && batch.JoinedToBatchId == null, cancellation);
            return known is null ? new Refusal(RefusalKind.NotFound, $"There is no batch {id}.")
                : known.TypedList is not null ? BatchIsTyped(id)
                : await BatchBusy.WhyNotNowAsync(db, id, cancellation) is { } busy ? busy
                : known;
        }

        var source = await NamedSources.OfAsync(db, request.SourceName, "the list", cancellation);
        return source.IsRefused ? source.Refusals.ToList()
            : request.Meanings is { } meanings && ListColumns.WhyNot(meanings) is { } wrong ? wrong
            : Matched(Batch.From(source.Value, act, request.CarriesNumbers), request.Meanings);
    }

    internal static Refusal BatchIsTyped(long id) => new(
        RefusalKind.Conflict,
        $"The rows of batch {id} are typed here from labels, and no file takes their place. Receive the list as a "
        + "batch of its own: what stands in both is found.");

    private static Batch Matched(Batch batch, IReadOnlyDictionary<string, string>? meanings)
    {
        if (meanings is not null)
        {
            batch.SettleMatch(ListColumns.Remember(meanings, batch.Match));
            batch.Source.Remember(ListColumns.Remember(meanings, batch.Source.RememberedMatch));
        }

        return batch;
    }
}
