using System.Collections.Concurrent;
using Accession.Tests.Stores;
using Microsoft.Extensions.Logging;

namespace Accession.Server.Tests.Ground;

/// <summary>Says everything that it can, statements of the database too.</summary>
public abstract class TalkativeServer(TestStore store) : TestServer(store)
{
    protected override IReadOnlyList<string> Set =>
    [
        "Logging:LogLevel:Default=Debug",
        "Logging:Console:LogLevel:Default=None",
        "Logging:LogLevel:Microsoft=Debug",
        "Logging:LogLevel:Microsoft.EntityFrameworkCore.Database.Command=Debug",
    ];
}

public sealed class TalkativeOnSqlite() : TalkativeServer(new SqliteTestStore());

public sealed class TalkativeOnPostgreSql() : TalkativeServer(new PostgreSqlTestStore());

/// <summary>Hears everything that a server says.</summary>
internal sealed class Listener : ILoggerProvider, ILogger
{
    public ConcurrentQueue<string> Lines { get; } = new();

    public ILogger CreateLogger(string categoryName) => this;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(
        LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
        Lines.Enqueue($"{formatter(state, exception)} {exception}");

    public void Dispose()
    {
    }
}
