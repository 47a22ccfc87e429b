using System.Collections.Concurrent;
using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Tests.Stores;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Server.Tests.Ground;

/// <summary>
/// The whole program on a fresh register: its own start, its own web server on a free port, its own background work. Tests
/// speak to it as people do, over HTTP, and assert on what a person would see.
/// </summary>
public abstract class TestServer(TestStore store) : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);

    private readonly ConcurrentDictionary<Role, Lazy<Task<Cookie>>> _signedIn = new();
    private WebApplication? _app;
    private Uri? _address;

    public TestStore Store => store;

    /// <summary>The running program; a test that asks for it is skipped when its database is not on this machine.</summary>
    public WebApplication App
    {
        get
        {
            store.Require();
            return _app!;
        }
    }

    public Uri Address
    {
        get
        {
            store.Require();
            return _address!;
        }
    }

    /// <summary>Every door of signing in is tried for every role from one address.</summary>
    protected virtual int TriesPerMinute => 2_000;

    /// <summary>Further settings of one test class's server.</summary>
    protected virtual IReadOnlyList<string> Set => [];

    public async ValueTask InitializeAsync()
    {
        await InitializeStoreAsync();
        if (store.WhyMissing is not null)
        {
            return;
        }

        _app = AccessionServer.Build(new Settings
        {
            DataFolder = store.Folder,
            Urls = "http://127.0.0.1:0",
            Set =
            [
                .. store.Settings,
                "Institution:Name=Herbarium of the Test Bench",
                "Institution:InstitutionCode=TB",
                "Institution:CollectionCode=TB-H",
                $"SignIn:TriesPerMinute={TriesPerMinute}",
                .. Set,
            ],
        });
        try
        {
            await FirstStart.PrepareAsync(App, CancellationToken.None);
            await App.StartAsync();
        }
        catch
        {
            await DisposeAsync();   // nobody else does after a failed start
            throw;
        }

        var addresses = App.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses;
        _address = new Uri(addresses.Single());
    }

    /// <summary>Makes the database, and whatever it is to hold before the program starts.</summary>
    protected virtual ValueTask InitializeStoreAsync() => store.InitializeAsync();

    public async ValueTask DisposeAsync()
    {
        if (_app is not null)
        {
            await _app.StopAsync();
            await _app.DisposeAsync();
        }

        await store.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    /// <summary>Somebody who has not signed in.</summary>
    public Visitor Stranger() => new(Address);

    /// <summary>
    /// Somebody who does this work, signed in by a real one-time link. The link is used once for the class, because
    /// signing in is limited to so many tries a minute; every visitor has the cookie and nothing else in common.
    /// </summary>
    public async Task<Visitor> SignInAsync(Role role)
    {
        var cookie = await _signedIn.GetOrAdd(role, r => new(() => SignInOnceAsync(r))).Value;
        return new Visitor(Address, cookie);
    }

    /// <summary>A one-time link of somebody who does this work, as an address on this server.</summary>
    public async Task<string> LinkAsync(Role role, TimeSpan? validFor = null)
    {
        await using var scope = App.Services.CreateAsyncScope();
        var people = scope.ServiceProvider.GetRequiredService<People>();
        var account = await people.EnsureAsync(UserName(role), DisplayName(role), role);
        return await people.MakeLinkAsync(account, validFor ?? TimeSpan.FromHours(1), CancellationToken.None);
    }

    public static string UserName(Role role) => $"test-{role.ToString().ToLowerInvariant()}";

    public static string DisplayName(Role role) => $"Test {role}";

    /// <summary>Looks into the register, for what no page shows.</summary>
    public async Task<T> InRegisterAsync<T>(Func<AccessionDb, Task<T>> look)
    {
        await using var scope = App.Services.CreateAsyncScope();
        return await look(scope.ServiceProvider.GetRequiredService<AccessionDb>());
    }

    /// <summary>Calls an operation without a door, to bring about quickly what another test does by hand.</summary>
    public async Task<TResult> RunAsync<TOperation, TResult>(Func<TOperation, Task<TResult>> run)
        where TOperation : class
    {
        await using var scope = App.Services.CreateAsyncScope();
        return await run(scope.ServiceProvider.GetRequiredService<TOperation>());
    }

    /// <summary>Waits until no work is unfinished, and fails when some of it was given up.</summary>
    public async Task WaitForWorkAsync()
    {
        var until = TimeProvider.System.GetUtcNow() + Patience;
        while (await InRegisterAsync(db => db.Work.AnyAsync(work => work.FinishedAt == null)))
        {
            if (TimeProvider.System.GetUtcNow() > until)
            {
                var left = await InRegisterAsync(db => db.Work.Where(work => work.FinishedAt == null)
                    .Select(work => $"{work.Kind} {work.Id}, {work.Done} of {work.Total}").ToListAsync());
                Assert.Fail($"After {Patience.TotalSeconds} s there is still work: {string.Join("; ", left)}");
            }

            await Task.Delay(TimeSpan.FromMilliseconds(50));
        }

        Assert.Empty(await InRegisterAsync(db => db.Work.Where(work => work.Failure != null)
            .Select(work => $"{work.Kind} {work.Id}: {work.Failure}").ToListAsync()));
    }

    private async Task<Cookie> SignInOnceAsync(Role role)
    {
        using var visitor = Stranger();
        await visitor.ComeInAsync(await LinkAsync(role));
        return visitor.SessionCookie ?? throw new InvalidOperationException($"The {role} has no cookie after signing in.");
    }
}

/// <summary>The program on the embedded database.</summary>
public sealed class ServerOnSqlite() : TestServer(new SqliteTestStore());

/// <summary>The program on PostgreSQL.</summary>
public sealed class ServerOnPostgreSql() : TestServer(new PostgreSqlTestStore());

/// <summary>The program on PostgreSQL, reading what becomes public under a role that may read nothing else.</summary>
public sealed class ServerWithPublicRole() : TestServer(new PublicRoleTestStore());
