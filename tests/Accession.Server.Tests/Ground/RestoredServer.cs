using Accession.Tests;
using Accession.Tests.Stores;

namespace Accession.Server.Tests.Ground;

/// <summary>The program on a register that was restored from a backup by the command, as an administrator types it.</summary>
public sealed class RestoredServer(TestStore store, string backup) : TestServer(store)
{
    /// <summary>What the command said.</summary>
    public string Said { get; private set; } = "";

    /// <summary>What leads a command to a register.</summary>
    public static string[] Lead(TestStore store) =>
        ["--data", store.Folder, .. store.Settings.SelectMany(setting => new[] { "--set", setting })];

    protected override async ValueTask InitializeStoreAsync()
    {
        await base.InitializeStoreAsync();
        (var exit, Said) = await ServerProcess.RunAsync(["restore", backup, .. Lead(Store)]);
        Assert.True(exit == 0, Said);
    }
}
