using System.Reflection;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// Writes the register, the lists and the papers as they came into one file, all of one moment. People go on working:
/// what they do after that moment is in the next backup.
/// </summary>
internal sealed class MakeBackup(AccessionDb db, DataFolder folder, TimeProvider clock)
{
    private const string Kind = ".backup";
    private const UnixFileMode OnlyOwner = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <param name="File">Where it goes; the file appears when it is whole, never before.</param>
    /// <param name="Replace">Whether a file of that name is replaced.</param>
    public sealed record Request(string File, bool Replace);

    /// <summary>What a backup would hold now.</summary>
    /// <param name="AboutBytes">How many bytes the register and the files are; packed they are fewer.</param>
    /// <param name="Missing">What the data folder does not have; nothing was read, so damage is not found.</param>
    public sealed record Plan(long Specimens, int Lists, int Papers, long AboutBytes, IReadOnlyList<string> Missing);

    /// <summary>A backup that was made.</summary>
    public sealed record Backup(BackupManifest Manifest, long Bytes);

    /// <summary>The version of this program.</summary>
    public static string Version { get; } = typeof(MakeBackup).Assembly
        .GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0";

    /// <summary>Says what would be written, and writes nothing.</summary>
    /// <exception cref="BackupRefusedException">It could not be made.</exception>
    public async Task<Plan> PlanAsync(Request request, CancellationToken cancellation)
    {
        await RefuseAsync(request, cancellation);
        await using var moment = await db.Kind.ReadOneMomentAsync(db, cancellation);
        var (lists, papers) = await FilesAsync(cancellation);
        List<string> missing =
        [
            .. Missing(folder.Lists, lists), .. Missing(folder.Papers, papers),
        ];
        return new(
            await db.Specimens.LongCountAsync(cancellation), lists.Count, papers.Count,
            await SizeAsync(lists, papers, cancellation), missing);
    }

    /// <param name="tell">Hears how many bytes of about how many are copied.</param>
    /// <exception cref="BackupRefusedException">It cannot be made, and nothing was written.</exception>
    public async Task<Backup> RunAsync(Request request, Action<long, long> tell, CancellationToken cancellation)
    {
        await RefuseAsync(request, cancellation);
        PartFile.ClearAbandoned(Path.GetDirectoryName(request.File)!, clock.GetUtcNow().UtcDateTime, Kind);
        using var part = new PartFile(request.File, Kind, OnlyOwner);
        using var scratch = new PartFile(request.File, Kind, OnlyOwner);   // never kept
        scratch.Content.Dispose();
        var takenAt = clock.GetUtcNow().UtcDateTime;
        await using var moment = await db.Kind.ReadOneMomentAsync(db, cancellation);
        var tables = await RegisterTables.OfAsync(db, cancellation);
        var (lists, papers) = await FilesAsync(cancellation);
        var total = await SizeAsync(lists, papers, cancellation);
        var done = 0L;

        BackupManifest manifest;
        using (var zip = new BackupZip(part.Content, bytes => tell(done += bytes, Math.Max(done, total))))
        {
            await db.Kind.Whole.CopyOutAsync(db, tables, scratch.Name, zip.KeepAsync, cancellation);
            List<string> missing =
            [
                .. await KeepFilesAsync(zip, BackupManifest.Lists, folder.Lists, lists, cancellation),
                .. await KeepFilesAsync(zip, BackupManifest.Papers, folder.Papers, papers, cancellation),
            ];
            manifest = new(
                BackupManifest.CurrentFormat, Version, db.Kind.Name, db.Database.GetMigrations().Last(), takenAt,
                tables, zip.Parts, missing);
            zip.Finish(manifest);
        }

        return new(manifest, part.Keep(request.Replace));
    }

    private static IEnumerable<string> Missing(string from, List<KeptFile> files) => files
        .Select(kept => kept.KeptAs).Distinct().Where(name => !File.Exists(Path.Combine(from, name)));

    private async Task<(List<KeptFile> Lists, List<KeptFile> Papers)> FilesAsync(CancellationToken cancellation) => (
        await db.Lists.Where(list => list.KeptAs != "").OrderBy(list => list.Id)
            .Select(list => new KeptFile(list.KeptAs, list.Sha256, list.Bytes)).ToListAsync(cancellation),
        await db.Papers.OrderBy(paper => paper.Id)
            .Select(paper => new KeptFile(paper.Sha256, paper.Sha256, paper.Bytes)).ToListAsync(cancellation));

    private async Task<long> SizeAsync(
        List<KeptFile> lists, List<KeptFile> papers, CancellationToken cancellation) =>
        await db.Kind.Whole.SizeAsync(db, cancellation)
        + lists.Concat(papers).DistinctBy(file => file.KeptAs).Sum(file => file.Bytes);

    // A file never changes once its row is stored, so it may be copied after the moment of the register.
    private static async Task<List<string>> KeepFilesAsync(
        BackupZip zip, string under, string from, IReadOnlyList<KeptFile> files, CancellationToken cancellation)
    {
        List<string> missing = [];
        foreach (var kept in files.DistinctBy(kept => kept.KeptAs))
        {
            var file = Path.Combine(from, kept.KeptAs);
            if (!File.Exists(file))
            {
                missing.Add(kept.KeptAs);
                continue;
            }

            await zip.KeepAsync(under + kept.KeptAs, async part =>
            {
                await using var content = File.OpenRead(file);
                await content.CopyToAsync(part, 1 << 20, cancellation);
            });
            if (zip.Parts[^1].Sha256 != kept.Sha256)
            {
                missing.Add(kept.KeptAs);
            }
        }

        return missing;
    }

    private async Task RefuseAsync(Request request, CancellationToken cancellation)
    {
        if (Directory.Exists(request.File))
        {
            throw new BackupRefusedException($"{request.File} is a folder. Name the file to write.");
        }

        if (!request.Replace && File.Exists(request.File))
        {
            throw new BackupRefusedException(
                $"There is a file {request.File} already. Name another one, or say --replace.");
        }

        if (!Directory.Exists(Path.GetDirectoryName(request.File)))
        {
            throw new BackupRefusedException($"There is no folder {Path.GetDirectoryName(request.File)}.");
        }

        var register = await RegistersAtHand.OfAsync(db, cancellation);
        if (register == RegisterAtHand.Earlier)
        {
            throw new BackupRefusedException(
                "The register is of an earlier version of the program. Back it up with that version.");
        }

        if (RegistersAtHand.WhyNot(register, folder) is { } reason)
        {
            throw new BackupRefusedException(reason);
        }
    }

    private sealed record KeptFile(string KeptAs, string Sha256, long Bytes);
}
