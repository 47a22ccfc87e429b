using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;
using SQLitePCL;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// Lets SQLite itself wait for the one write lock. The driver's own polling starved a scan for seconds beside a bulk
/// load; with the engine's time-out the worst wait was 82 ms.
/// </summary>
public sealed class SqlitePragmas : DbConnectionInterceptor
{
    private const string Statements = "PRAGMA busy_timeout = 30000; PRAGMA synchronous = FULL;";

    // The driver keeps the engine's connections and gives them out again, and each was told already.
    private static readonly ConditionalWeakTable<sqlite3, object> Told = [];

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        var engine = ((SqliteConnection)connection).Handle!;
        if (Told.TryGetValue(engine, out _))
        {
            return;
        }

        Tell(connection);
        Told.TryAdd(engine, Told);
    }

    internal static void Tell(DbConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Statements;
        command.ExecuteNonQuery();
    }

    // Nothing in it waits for anything.
    public override Task ConnectionOpenedAsync(
        DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        ConnectionOpened(connection, eventData);
        return Task.CompletedTask;
    }
}
