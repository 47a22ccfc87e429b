using System.Text.Json;
using System.Text.Json.Serialization;
using Accession.Server.Background;

namespace Accession.Server.Publishing;

/// <summary>
/// Builds the archive that somebody asked for on the page. It is begun again from the start after a restart: half an
/// archive shows no moment of the register, and the name comes with the last step.
/// </summary>
public sealed class BuildArchiveWork(
    BuildArchive build, DatasetVersions versions, DatasetTexts texts, ArchiveFolder folder, TimeProvider clock) : IWork
{
    public const string Kind = "build the archive";

    /// <summary>The subject of the work: there is one data set.</summary>
    public const long TheDataset = 0;

    /// <summary>What the work brought forth; it stands with the work as JSON.</summary>
    public sealed record Result(string Name, long Specimens, long Determinations, long Bytes, int Version)
    {
        /// <summary>The name of the file, and of its address.</summary>
        [JsonIgnore]
        public string FileName => $"{Name}.zip";

        public static Result? Read(string? json) => json is null ? null : JsonSerializer.Deserialize<Result>(json);
    }

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        folder.ClearAbandoned(clock.GetUtcNow().UtcDateTime);
        var name = texts.FileName(await versions.OfAsync(progress.ActId, cancellation));
        var request = new BuildArchive.Request(progress.ActId, folder.PathOf(name), Replace: true);
        var archive = (await build.RunAsync(request, progress.ReportAsync, cancellation)).Value;
        return JsonSerializer.Serialize(
            new Result(name, archive.Specimens, archive.Determinations, archive.Bytes, archive.Version));
    }
}
