using Accession.Core.Accessions;
using Accession.Storage;
using Accession.Storage.Batches;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Shared;

/// <summary>
/// A paper of a batch as it is listed, for those who may see rows of batches exactly: its name may say whose land it
/// was.
/// </summary>
public sealed record ShownPaper(
    long Id, long BatchId, PaperKind Kind, string FileName, PaperType Type, long Bytes, string Remark, string By,
    DateTime At, ShownPaper.Withdrawal? Withdrawn)
{
    private const int MostShown = 500;

    /// <summary>Who set it aside, when and why.</summary>
    public sealed record Withdrawal(string By, DateTime At, string? Why);

    public string Address => $"/batch/{BatchId}/paper/{Id}";

    public string Size => Bytes switch
    {
        < 1024 => $"{Bytes} bytes",
        < 1024 * 1024 => $"{(Bytes + 1023) / 1024:N0} kB",
        _ => FormattableString.Invariant($"{Bytes / (1024.0 * 1024):0.0} MB"),
    };

    public string TypeWords => Type == PaperType.Text ? "plain text" : Type.ToString().ToUpperInvariant();

    public string KindWords => Words(Kind);

    public static string Words(PaperKind kind) => kind switch
    {
        PaperKind.Transmittal => "Transmittal list",
        PaperKind.DeedOfGift => "Deed of gift",
        PaperKind.Permit => "Permit",
        PaperKind.Cites => "CITES paper",
        PaperKind.Phytosanitary => "Phytosanitary certificate",
        PaperKind.Letter => "Letter",
        _ => "Other",
    };

    /// <summary>The papers of a batch, those that stand first.</summary>
    /// <param name="db">The register.</param>
    /// <param name="batchId">The batch.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <param name="only">The one paper asked for; null for all.</param>
    public static async Task<IReadOnlyList<ShownPaper>> OfAsync(
        AccessionDb db, long batchId, CancellationToken cancellation, long? only = null) =>
        await db.Papers.Where(p => db.WithJoined(batchId).Contains(p.BatchId) && (only == null || p.Id == only))
            .OrderBy(p => p.SetAsideActId != null).ThenBy(p => p.Id).Take(MostShown)
            .Select(p => new ShownPaper(
                p.Id, p.BatchId, p.Kind, p.FileName, p.Type, p.Bytes, p.Remark, p.Act.ActorName, p.Act.At,
                p.SetAsideAct == null
                    ? null
                    : new Withdrawal(p.SetAsideAct.ActorName, p.SetAsideAct.At, p.SetAsideAct.Reason)))
            .ToListAsync(cancellation);
}
