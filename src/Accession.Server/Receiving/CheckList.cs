using System.Security.Cryptography;
using Accession.Core.Batches;
using Accession.Core.Matching;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Checks a list without storing anything: it is received, read and found by the same operations as any list, on a
/// connection whose tables of intake are temporary, so the answer is what receiving would bring.
/// </summary>
public sealed class CheckList(
    AccessionDb db, ReadList read, FindDuplicates find, FoundRows findings, TimeProvider clock)
{
    private const int Slice = 500;

    /// <param name="File">Where the list lies.</param>
    /// <param name="SourceName">
    /// Who sends it; null when nobody says so, and it is then compared with no earlier list.
    /// </param>
    /// <param name="BatchId">The batch whose list this is again; null when nobody says so.</param>
    /// <param name="CarriesNumbers">Whether the sheets bear the numbers that they keep.</param>
    public sealed record Request(string File, string? SourceName, long? BatchId, bool CarriesNumbers);

    /// <summary>Who hears what is found, one after the other.</summary>
    /// <param name="Report">How far it is.</param>
    /// <param name="Problem">Something that could not be read.</param>
    /// <param name="Finding">A row that is not new.</param>
    public sealed record Listener(
        ReadList.Report Report, Func<RowProblem, Task> Problem, Func<FoundRows.Shown, Task> Finding);

    /// <summary>The list as a whole.</summary>
    /// <param name="HereAs">The batch that has this very file already; null when none has.</param>
    /// <param name="BelongsTo">The earlier batch whose list it is again; null for a list of its own.</param>
    /// <param name="MayBelongTo">The earlier batch that it is much like; a curator would be asked.</param>
    /// <param name="NotComparable">
    /// Gatherings of the register that nothing can be compared with before the next list is received.
    /// </param>
    public sealed record Answer(
        ListCounts Counts, long Problems, long Blocking, IReadOnlyDictionary<FindingKind, int> Findings,
        IReadOnlyList<string> UnmatchedColumns, bool AsksForOrder, long? HereAs, long? BelongsTo, long? MayBelongTo,
        int NotComparable)
    {
        /// <summary>Whether anybody has something to do before the list can go in as it is.</summary>
        public bool HasSomethingToLookAt => Problems > 0 || UnmatchedColumns.Count > 0 || AsksForOrder
            || MayBelongTo is not null || Findings.Any(kind => kind.Key != FindingKind.New && kind.Value > 0);
    }

    public async Task<Outcome<Answer>> RunAsync(Request request, Listener listener, CancellationToken cancellation)
    {
        var file = await FileAsync(request.File, cancellation);
        if (file.Bytes == 0)
        {
            return new Refusal(RefusalKind.Invalid, $"{request.File} is empty.");
        }

        var source = await SourceAsync(request, cancellation);
        if (request.BatchId is { } wanted && source is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {wanted}.");
        }

        if (request.BatchId is { } typed && await db.Lists.AnyAsync(
            list => list.BatchId == typed && list.KeptAs == "", cancellation))
        {
            return ReceiveList.BatchIsTyped(typed);
        }

        var unsigned = await db.Gatherings.CountAsync(
            gathering => gathering.SignatureVersion < Signature.CurrentVersion, cancellation);
        var hereAs = await db.Lists
            .Where(list => list.Sha256 == file.Sha256 && list.RefusedBecause == null
                && (source == null || list.Batch.SourceId == source))
            .OrderBy(list => list.Id).Select(list => (long?)list.BatchId).FirstOrDefaultAsync(cancellation);
        await using var laid = await db.Kind.LayOverAsync(db, source, cancellation);
        var list = await ReceiveAsync(request, file, source, cancellation);
        var own = list.BatchId;
        try
        {
            await read.RunAsync(list.Id, request.File, listener.Report, cancellation);
        }
        catch (WorkMustWaitException wait)
        {
            return new Refusal(RefusalKind.Conflict, $"{wait.Message} Check this one when that is done.");
        }

        if (list.RefusedBecause is { } refused)
        {
            return new Refusal(RefusalKind.Invalid, refused);
        }

        await find.FindAnewAsync(list.BatchId, Report(listener), cancellation);
        db.ChangeTracker.Clear();
        var answer = await AnswerAsync(list.Id, listener, cancellation);
        return answer with
        {
            HereAs = hereAs,
            BelongsTo = list.BatchId != own || request.BatchId is not null ? list.BatchId : null,
            NotComparable = unsigned,
        };
    }

    private static FindDuplicates.Report Report(Listener listener) =>
        (done, total, cancellation) => listener.Report(done, total, cancellation);

    private static async Task<ReceivedList.KeptFile> FileAsync(string path, CancellationToken cancellation)
    {
        await using var content = File.OpenRead(path);
        var hash = await SHA256.HashDataAsync(content, cancellation);
        return new(
            Path.GetFileName(path), Guid.NewGuid().ToString("N"), Convert.ToHexStringLower(hash), content.Length);
    }

    private async Task<long?> SourceAsync(Request request, CancellationToken cancellation)
    {
        if (request.BatchId is { } id)
        {
            return await db.Batches.Where(batch => batch.Id == id && batch.JoinedToBatchId == null)
                .Select(batch => (long?)batch.SourceId).SingleOrDefaultAsync(cancellation);
        }

        var folded = request.SourceName is { } name ? Source.Fold(name) : null;
        return await db.Sources.Where(source => source.FoldedName == folded)
            .Select(source => (long?)source.Id).SingleOrDefaultAsync(cancellation);
    }

    private async Task<ReceivedList> ReceiveAsync(
        Request request, ReceivedList.KeptFile file, long? sourceId, CancellationToken cancellation)
    {
        var act = Act.Of(Door.System, "check a list", clock.GetUtcNow().UtcDateTime);
        Batch batch;
        if (request.BatchId is { } id)
        {
            batch = await db.Batches.Include(b => b.Source).Include(b => b.Lists)
                .SingleAsync(b => b.Id == id, cancellation);
        }
        else
        {
            var source = sourceId is null
                ? Source.Named(request.SourceName ?? $"nobody {file.KeptAs}")
                : await db.Sources.SingleAsync(s => s.Id == sourceId, cancellation);
            batch = Batch.From(source, act, request.CarriesNumbers);
            db.Add(batch);
        }

        var list = batch.Receive(file, act);
        await db.SaveChangesAsync(cancellation);
        return list;
    }

    private async Task<Answer> AnswerAsync(long listId, Listener listener, CancellationToken cancellation)
    {
        var batch = await db.Batches.AsNoTracking().Include(b => b.Lists).ThenInclude(l => l.Act)
            .SingleAsync(b => b.Lists.Any(l => l.Id == listId), cancellation);
        var list = batch.Lists.Single(l => l.Id == listId);
        var (problems, blocking) = (0L, 0L);
        await foreach (var problem in db.Problems.AsNoTracking().Where(p => p.ListId == listId)
            .OrderBy(p => p.Line).ThenBy(p => p.Id).AsAsyncEnumerable().WithCancellation(cancellation))
        {
            problems++;
            blocking += problem.Blocks ? 1 : 0;
            await listener.Problem(problem);
        }

        var counted = await FindingsAsync(batch, listId, listener, cancellation);
        var match = ListColumns.Match(list.Headings, batch.Match, batch.CarriesNumbers);
        return new(
            list.Counts, problems, blocking, counted,
            [.. match.Columns.Where(column => column.Field is null).Select(column => column.Heading)],
            ListColumns.AsksForOrder(batch.DayMonthOrder, ListColumns.Dates(list.DateEvidence)),
            null, null, batch.AsksWhichList ? batch.ResemblesBatchId : null, 0);
    }

    private async Task<Dictionary<FindingKind, int>> FindingsAsync(
        Batch batch, long listId, Listener listener, CancellationToken cancellation)
    {
        var counted = Enum.GetValues<FindingKind>().ToDictionary(kind => kind, _ => 0);
        var (line, id) = (0, 0L);
        while (true)
        {
            var (afterLine, afterId) = (line, id);
            var rows = await db.Rows.AsNoTracking().Where(BatchRow.Waiting)
                .Where(row => row.LastListId == listId && row.Finding != null
                    && (row.Line > afterLine || (row.Line == afterLine && row.Id > afterId)))
                .OrderBy(row => row.Line).ThenBy(row => row.Id).Take(Slice).ToListAsync(cancellation);
            if (rows.Count == 0)
            {
                return counted;
            }

            foreach (var row in rows)
            {
                counted[row.Finding!.Value]++;
            }

            List<BatchRow> found = [.. rows.Where(row => row.Finding != FindingKind.New)];
            foreach (var shown in await findings.OfAsync(batch, found, cancellation))
            {
                await listener.Finding(shown);
            }

            (line, id) = (rows[^1].Line, rows[^1].Id);
        }
    }
}
