namespace Accession.Server.Background;

/// <summary>One kind of long work: a door that calls an operation, slice by slice.</summary>
public interface IWork
{
    /// <summary>Does the work, or goes on with it after a restart, and says how far it is.</summary>
    /// <returns>What it brought forth, such as the name of a file; null when that is nothing by itself.</returns>
    Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation);
}
