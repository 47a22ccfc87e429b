using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// Lets SQLite itself wait for the one write lock. The driver's own polling starved a scan for seconds beside a bulk
/// load; with the engine's time-out the worst wait was 82 ms.
/// </summary>
public sealed class SqlitePragmas : DbConnectionInterceptor
{
    private const string Statements = "PRAGMA busy_timeout = 30000; PRAGMA synchronous = FULL;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Statements;
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(
        DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = Statements;
        await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
