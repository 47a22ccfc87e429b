using System.Text;
using Accession.Server.Tests.Ground;
using Accession.Tests;
using Accession.Tests.Stores;

namespace Accession.Server.Tests.Administering;

/// <summary>
/// Files that are not backups, or not whole ones. They are refused before any database is looked at, so one database is
/// enough here.
/// </summary>
[Trait("Store", "sqlite")]
public sealed class DamagedBackupTests(StoreOnSqlite store) : IClassFixture<StoreOnSqlite>, IDisposable
{
    private readonly string _files = Directory.CreateTempSubdirectory("accession-backup-").FullName;

    public static TheoryData<string> Wrong => [.. Ways.Keys];

    private static readonly Dictionary<string, (Func<byte[], byte[]> Make, string Says)> Ways = new()
    {
        ["nothing"] = (_ => [], "is empty"),
        ["a list"] = (_ => Encoding.UTF8.GetBytes("Collector,Number\nOrla Finch,1\n"), "is not a backup"),
        ["another zip"] = (_ => BackupBytes.ZipOf(("archive.txt", "x")), "is not a backup"),
        ["three bytes"] = (whole => whole[..3], "was cut short"),
        ["forty bytes"] = (whole => whole[..40], "was cut short"),
        ["a third"] = (whole => whole[..(whole.Length / 3)], "was cut short"),
        ["nine tenths"] = (whole => whole[..(whole.Length / 10 * 9)], "was cut short"),
        ["without its last byte"] = (whole => whole[..^1], "was cut short"),
        ["some bytes flipped"] = (BackupBytes.Flipped, "is damaged"),
        ["a part that leads outside"] =
            (whole => BackupBytes.Changed(whole, m => m["parts"]![0]!["name"] = "../../evil"), "could lead outside"),
        ["another hash"] = (
            whole => BackupBytes.Changed(whole, m => m["parts"]![0]!["sha256"] = new string('0', 64)),
            "is not as it was written"),
        ["a part that nobody names"] =
            (whole => BackupBytes.Changed(whole, m => m["parts"]!.AsArray().RemoveAt(0)), "does not hold the parts"),
        ["no parts"] = (whole => BackupBytes.Changed(whole, m => m.Remove("parts")), "cannot be read"),
        ["one more, above"] =
            (whole => BackupBytes.Changed(whole, _ => { }, ("../outside", "x")), "could lead outside"),
        ["one more, at the root"] =
            (whole => BackupBytes.Changed(whole, _ => { }, ("/etc/outside", "x")), "could lead outside"),
        ["a hash of another manifest"] = (
            whole => BackupBytes.Changed(whole, _ => { }, rehash: false),
            "what it says of itself is not as it was written"),
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public async Task A_file_that_is_not_as_it_was_written_is_refused_with_one_sentence_and_leaves_nothing(string way)
    {
        var file = Path.Combine(_files, "wrong.backup");
        await File.WriteAllBytesAsync(file, Ways[way].Make(await WholeAsync()), TestContext.Current.CancellationToken);
        var into = Path.Combine(_files, "into");
        var (exit, said) = await ServerProcess.RunAsync("restore", file, "--data", into);
        Assert.True(exit == 1 && said.Contains(Ways[way].Says, StringComparison.Ordinal), $"{exit} {said}");
        Assert.DoesNotContain("   at ", said, StringComparison.Ordinal);
        Assert.False(Directory.Exists(into));
        Assert.False(Directory.Exists(into + ".restoring"));
        Assert.False(File.Exists("/etc/outside"));
    }

    public void Dispose() => Directory.Delete(_files, recursive: true);

    private async Task<byte[]> WholeAsync()
    {
        var file = Path.Combine(store.Folder, "whole.backup");
        if (!File.Exists(file))
        {
            var (exit, said) = await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(store)]);
            Assert.True(exit == 0, said);
        }

        return await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
    }
}
