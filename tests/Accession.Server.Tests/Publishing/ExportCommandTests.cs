using System.IO.Compression;
using System.Text.Json;
using Accession.Tests;
using Accession.Tests.Stores;

namespace Accession.Server.Tests.Publishing;

/// <summary>The command as an administrator types it.</summary>
[Trait("Store", "sqlite")]
public sealed class ExportCommandTests(StoreOnSqlite store) : IClassFixture<StoreOnSqlite>
{
    private readonly string _file = Path.Combine(store.Folder, $"{Guid.NewGuid():N}.zip");

    [Fact]
    public async Task It_writes_the_file_while_a_server_runs_and_tells_what_is_in_it()
    {
        await using var server = await ServerProcess.ServeAsync(store.Folder);
        var (exit, said) = await RunAsync("--json");
        Assert.Equal(0, exit);
        var told = JsonDocument.Parse(said).RootElement;
        Assert.Equal(_file, told.GetProperty("file").GetString());
        Assert.Equal(new FileInfo(_file).Length, told.GetProperty("bytes").GetInt64());
        using var zip = ZipFile.OpenRead(_file);
        Assert.Equal(
            ["meta.xml", "eml.xml", "occurrence.txt", "identification.txt"], zip.Entries.Select(entry => entry.FullName));
    }

    [Fact]
    public async Task A_file_that_is_there_is_replaced_only_when_that_was_said()
    {
        await File.WriteAllTextAsync(_file, "precious");
        var (exit, said) = await RunAsync();
        Assert.Equal(1, exit);
        Assert.Contains("--replace", said);
        Assert.Equal("precious", await File.ReadAllTextAsync(_file));

        Assert.Equal(0, (await RunAsync("--replace")).ExitCode);
        Assert.NotEqual("precious", await File.ReadAllTextAsync(_file));
    }

    [Fact]
    public async Task Without_a_register_none_is_made()
    {
        var nowhere = Path.Combine(store.Folder, "nowhere");
        var (exit, said) = await ServerProcess.RunAsync("export", "--data", nowhere, "--out", _file);
        Assert.Equal(1, exit);
        Assert.Contains("There is no register", said);
        Assert.False(File.Exists(Path.Combine(nowhere, "register.db")) || File.Exists(_file));
    }

    [Fact]
    public async Task A_wrong_setting_ends_with_2() =>
        Assert.Equal(2, (await RunAsync("--set", "Institution:Licence=mine")).ExitCode);

    private Task<(int ExitCode, string Said)> RunAsync(params string[] more) =>
        ServerProcess.RunAsync(["export", "--data", store.Folder, "--out", _file, .. more]);
}
