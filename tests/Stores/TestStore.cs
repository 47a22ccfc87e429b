using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Tests.Stores;

/// <summary>
/// A database of its own and an empty data folder, made for one test class and gone afterwards. Every test class that
/// stores anything runs on both databases: an abstract class has the tests, two sealed ones of a line each name the store.
/// </summary>
public abstract class TestStore : IAsyncLifetime
{
    /// <summary>The data folder, as a server would be told.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("accession-test-").FullName;

    /// <summary>The settings that lead a server to this database, as Section:Name=value.</summary>
    public abstract IReadOnlyList<string> Settings { get; }

    public abstract IDatabase Database { get; }

    public WorkBell Bell { get; } = new();

    /// <summary>Why this database is not on this machine; null when it is.</summary>
    public string? WhyMissing { get; protected set; }

    /// <summary>Makes the database, without tables.</summary>
    public virtual ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public virtual ValueTask DisposeAsync()
    {
        Directory.Delete(Folder, recursive: true);
        GC.SuppressFinalize(this);
        return ValueTask.CompletedTask;
    }

    /// <summary>A view of the register of its own, as each request and each process has one.</summary>
    public AccessionDb Open()
    {
        Require();
        var options = new DbContextOptionsBuilder<AccessionDb>().UseIdentitySchema();
        Use(options);
        return new AccessionDb(options.Options, Database, Bell);
    }

    /// <summary>Makes the tables.</summary>
    public async Task MigrateAsync()
    {
        await using var db = Open();
        await Database.BeforeMigratingAsync(db, CancellationToken.None);
        await db.Database.MigrateAsync();
    }

    /// <summary>Skips the running test when the database is not on this machine.</summary>
    public void Require() => Assert.SkipWhen(WhyMissing is not null, WhyMissing ?? "");

    /// <summary>Points a context at this database.</summary>
    public abstract void Use(DbContextOptionsBuilder options);
}
