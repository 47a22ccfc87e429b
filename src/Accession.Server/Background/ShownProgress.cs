using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Background;

/// <summary>How far a piece of work is, for people.</summary>
public sealed record ShownProgress(
    long Id, string Kind, long Done, long Total, DateTime WantedAt, DateTime? BegunAt, DateTime? LeaseUntil,
    string? StopAskedBy, DateTime? StoppedAt, DateTime? FinishedAt, string? Failure, string? Result)
{
    public bool IsFinished => FinishedAt is not null;

    /// <summary>Whether somebody stopped it, and it can be gone on with.</summary>
    public bool Rests => StoppedAt is not null && !IsFinished;

    /// <summary>Whether somebody stopped it for good.</summary>
    public bool WasCancelled => StoppedAt is not null && IsFinished;

    /// <summary>Whether it waits for its turn, or somebody does it now.</summary>
    public bool IsUnderWay => !IsFinished && !Rests;

    /// <summary>What stopping means for it.</summary>
    public WorkStop Stop => WorkStop.Of(Kind);

    /// <summary>An estimate of the time left, when it was last heard of; null while too little is known.</summary>
    public string? Left => BegunAt is { } begun && LeaseUntil is { } until && StopAskedBy is null
        ? TimeLeft.Of(Done, Total, until - WorkClaims.Lease - begun)
        : null;

    /// <summary>How far it is, in words.</summary>
    public string Count => Total > 0 ? $"{Done:N0} of {Total:N0}" : "begun";

    public static Task<ShownProgress?> OfAsync(AccessionDb db, long id, CancellationToken cancellation) =>
        Shown(db.Work.Where(work => work.Id == id)).SingleOrDefaultAsync(cancellation);

    /// <summary>The latest work of a kind on a subject; null when there never was any.</summary>
    public static Task<ShownProgress?> LatestAsync(
        AccessionDb db, string kind, long subject, CancellationToken cancellation) =>
        Shown(db.Work.Where(work => work.Kind == kind && work.Subject == subject).OrderByDescending(work => work.Id))
            .FirstOrDefaultAsync(cancellation);

    private static IQueryable<ShownProgress> Shown(IQueryable<WorkRow> work) => work.Select(w => new ShownProgress(
        w.Id, w.Kind, w.Done, w.Total, w.WantedAt, w.BegunAt, w.LeaseUntil,
        w.StopAct == null ? null : w.StopAct.ActorName, w.StoppedAt, w.FinishedAt, w.Failure, w.Result));
}
