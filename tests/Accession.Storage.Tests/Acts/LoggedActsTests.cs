using System.Collections.Concurrent;
using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage.Accounts;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;

namespace Accession.Storage.Tests.Acts;

[Trait("Store", "sqlite")]
public sealed class LoggedActsOnSqlite(StoreOnSqlite store) : LoggedActsTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class LoggedActsOnPostgreSql(StoreOnPostgreSql store)
    : LoggedActsTests(store), IClassFixture<StoreOnPostgreSql>
{
    /// <summary>The embedded database lets no two write at once: only here can both have begun.</summary>
    [Fact]
    public async Task A_request_that_came_twice_at_once_is_one_sentence()
    {
        var door = new Door(Curator, $"key-{Name}");
        await using var db = Talkative();
        var outcome = await db.CarryOutAsync<string>(
            door, Act.Of(door, "name a source", At),
            async () =>
            {
                await using var faster = Store.Open();
                await faster.CarryOutAsync<string>(
                    door, Act.Of(door, "name a source", At),
                    () => Task.FromResult<Outcome<string>>("the first answer"), CancellationToken.None);
                return "the second answer";
            },
            CancellationToken.None);

        Assert.Equal("the first answer", outcome.Value);
        AssertOneSentence("\"name a source\" came twice at once; the second was answered like the first.");
    }
}

/// <summary>What goes as it should is no alarm in the log.</summary>
public abstract class LoggedActsTests(TestStore store) : IDisposable
{
    protected static readonly DateTime At = new(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc);
    protected static readonly Actor Curator = new("c-1", "Wilhelmina Oakhurst", new HashSet<Role> { Role.Curator });

    private readonly Listener _log = new();

    protected TestStore Store => store;

    protected string Name { get; } = $"Source {Guid.NewGuid():N}";

    public void Dispose()
    {
        _log.Dispose();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task Whoever_comes_second_to_a_name_is_one_sentence()
    {
        Assert.False((await NameAsync()).IsRefused);
        Assert.Empty(_log.Said);

        Assert.Equal(RefusalKind.Conflict, Assert.Single((await NameAsync()).Refusals).Kind);
        AssertOneSentence("\"name a source\" was refused: somebody else was faster.");
    }

    [Fact]
    public async Task What_fails_otherwise_reaches_whoever_called()
    {
        await using var db = Talkative();

        await Assert.ThrowsAsync<DbUpdateException>(() => db.CarryOutAsync<bool>(
            new Door(Curator), Act.Of(new Door(Curator), null!, At),
            () => Task.FromResult<Outcome<bool>>(true), CancellationToken.None));
    }

    protected AccessionDb Talkative()
    {
        store.Require();
        var options = new DbContextOptionsBuilder<AccessionDb>().UseIdentitySchema();
        store.Use(options);
        options.UseLoggerFactory(_log);
        return new AccessionDb(options.Options, store.Database, store.Bell);
    }

    protected void AssertOneSentence(string sentence) => Assert.Equal([sentence], _log.Said);

    private async Task<Outcome<string>> NameAsync()
    {
        await using var db = Talkative();
        return await db.CarryOutAsync<string>(
            new Door(Curator), Act.Of(new Door(Curator), "name a source", At),
            () =>
            {
                db.Add(Source.Named(Name));
                return Task.FromResult<Outcome<string>>(Name);
            },
            CancellationToken.None);
    }

    /// <summary>Hears what would stand in the log of a server: without statements that succeeded.</summary>
    private sealed class Listener : ILoggerFactory, ILogger
    {
        private readonly ConcurrentQueue<string> _said = new();

        public IReadOnlyList<string> Said => [.. _said];

        public ILogger CreateLogger(string categoryName) => this;

        public void AddProvider(ILoggerProvider provider)
        {
        }

        public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Information;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            if (IsEnabled(logLevel) && eventId.Name?.EndsWith("CommandExecuted", StringComparison.Ordinal) != true)
            {
                _said.Enqueue($"{formatter(state, exception)}{(exception is null ? "" : $" {exception}")}");
            }
        }

        public void Dispose()
        {
        }
    }
}
