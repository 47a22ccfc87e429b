using Accession.Server.Background;

namespace Accession.Server.Receiving;

/// <summary>Reads a received list: its subject is the list.</summary>
public sealed class ReadListWork(ReadList read) : IWork
{
    public const string Kind = "read a list";

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        await read.RunAsync(progress.Subject, progress.ReportAsync, cancellation);
        return null;
    }
}
