using System.IO.Compression;
using Accession.Core.Outcomes;
using Accession.Core.Standards.DarwinCore;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.Extensions.Options;

namespace Accession.Server.Publishing;

/// <summary>Builds an archive of the register as everyone may see it, under the act that wanted it.</summary>
public sealed class BuildArchive(AccessionDb db, DatasetVersions versions, DatasetTexts texts, TimeProvider clock)
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(500);

    /// <param name="ActId">The act that wanted it.</param>
    /// <param name="File">Where it goes; the file appears when it is whole, never before.</param>
    /// <param name="Replace">Whether a file of that name is replaced.</param>
    public sealed record Request(long ActId, string File, bool Replace);

    /// <summary>An archive that was built.</summary>
    public sealed record Archive(long Specimens, long Determinations, long Bytes, int Version);

    /// <param name="report">Hears a few times a second how many lines of how many are written.</param>
    public async Task<Outcome<Archive>> RunAsync(
        Request request, Func<long, long, CancellationToken, Task> report, CancellationToken cancellation)
    {
        if (!request.Replace && File.Exists(request.File))
        {
            return new Refusal(RefusalKind.Conflict, $"There is a file {request.File} already. Nothing was written.");
        }

        var version = await versions.OfAsync(request.ActId, cancellation);
        var description = texts.Description(version);
        if (description.Refusals() is { Count: > 0 } refusals)
        {
            return refusals.ToList();
        }

        using var part = new PartFile(request.File);
        await using var moment = await db.Kind.ArchiveLines.HoldAsync(db, cancellation);
        var total = await moment.CountAsync(OccurrenceColumns.File, cancellation)
            + await moment.CountAsync(IdentificationColumns.File, cancellation);
        await report(0, total, cancellation);

        long specimens, determinations;
        using (var zip = new ZipArchive(part.Content, ZipArchiveMode.Create, leaveOpen: true))
        {
            var archive = new ArchiveZip(zip, moment, texts.Cells, Paced(report, total));
            archive.WriteDescriptors(description);
            specimens = await archive.WriteAsync(OccurrenceColumns.File, cancellation);
            determinations = await archive.WriteAsync(IdentificationColumns.File, cancellation);
        }

        await report(total, total, cancellation);
        return new Archive(specimens, determinations, part.Keep(request.Replace), version.Number);
    }

    private Func<long, CancellationToken, Task> Paced(Func<long, long, CancellationToken, Task> report, long total)
    {
        var last = clock.GetTimestamp();
        return (lines, cancellation) =>
        {
            if (clock.GetElapsedTime(last) < Pause)
            {
                return Task.CompletedTask;
            }

            last = clock.GetTimestamp();
            return report(lines, total, cancellation);
        };
    }
}
