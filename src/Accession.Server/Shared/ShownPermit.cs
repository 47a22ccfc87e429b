using Accession.Core.Accessions;
using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Shared;

/// <summary>A permit of a batch as it is listed, for those who may see the papers.</summary>
public sealed record ShownPermit(
    long Id, PermitTerms Terms, string? PaperName, string By, DateTime At, long? ReplacedById,
    ShownPermit.Ending? Ended)
{
    private const int MostShown = 500;

    /// <summary>Who corrected it or set it aside, when and why.</summary>
    public sealed record Ending(string By, DateTime At, string? Why);

    public bool Holds => Ended is null;

    public string Name => PermitWords.NameOf(Terms);

    public string Validity => PermitWords.Validity(Terms.From, Terms.Until);

    /// <summary>Where it holds, in words.</summary>
    public string Region => string.Join("; ", new[]
    {
        Terms.Country, Terms.StateProvince, string.Join(", ", Terms.Counties),
    }.Where(part => part.Length > 0)) is { Length: > 0 } region ? region : "anywhere";

    /// <summary>For which plants it holds, in words.</summary>
    public string Plants => Terms.Taxa.Count == 0 ? "any" : string.Join(", ", Terms.Taxa);

    /// <summary>The permits of a batch, those that hold first.</summary>
    /// <param name="db">The register.</param>
    /// <param name="batchId">The batch.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <param name="only">The one permit asked for, and what replaced it; null for all.</param>
    public static async Task<IReadOnlyList<ShownPermit>> OfAsync(
        AccessionDb db, long batchId, CancellationToken cancellation, long? only = null)
    {
        var permits = await db.Permits.AsNoTracking().Include(p => p.Act).Include(p => p.EndedAct)
            .Where(p => db.WithJoined(batchId).Contains(p.BatchId)
                && (only == null || p.Id == only || p.ReplacesId == only))
            .OrderBy(p => p.EndedActId != null).ThenBy(p => p.Id).Take(MostShown).ToListAsync(cancellation);
        var papers = await db.Papers.Where(p => db.WithJoined(batchId).Contains(p.BatchId))
            .ToDictionaryAsync(p => p.Id, p => p.FileName, cancellation);
        var replaced = permits.Where(p => p.ReplacesId is not null).ToDictionary(p => p.ReplacesId!.Value, p => p.Id);
        return
        [
            .. permits.Select(p => new ShownPermit(
                p.Id, p.Terms, p.PaperId is { } paper ? papers.GetValueOrDefault(paper) : null, p.Act.ActorName,
                p.Act.At, replaced.TryGetValue(p.Id, out var by) ? by : null,
                p.EndedAct is { } ended ? new(ended.ActorName, ended.At, ended.Reason) : null)),
        ];
    }
}
