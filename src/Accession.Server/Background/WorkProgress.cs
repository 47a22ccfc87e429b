using Accession.Storage.Work;

namespace Accession.Server.Background;

/// <summary>What a running piece of work works on, and how it says how far it is.</summary>
public sealed class WorkProgress(WorkRow work, string owner, WorkClaims claims)
{
    /// <summary>The key of what is worked on.</summary>
    public long Subject => work.Subject;

    /// <summary>The act that wanted the work.</summary>
    public long ActId => work.ActId;

    public long WorkId => work.Id;

    /// <summary>Says how far it is and keeps the lease; throws when another process has taken the work over.</summary>
    public Task ReportAsync(long done, long total, CancellationToken cancellation) =>
        claims.ReportAsync(work.Id, owner, done, total, cancellation);
}
