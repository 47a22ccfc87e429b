using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// Temporary tables over those of intake, in the temporary database of a connection that may only read the register:
/// a transaction that writes takes no lock of it, and a statement that would change it fails.
/// </summary>
internal sealed class SqliteLaidOver : IAsyncDisposable
{
    private readonly AccessionDb _db;
    private readonly string _before;

    private SqliteLaidOver(AccessionDb db) => (_db, _before) = (db, db.Database.GetConnectionString()!);

    public static async Task<SqliteLaidOver> LayAsync(
        AccessionDb db, long? sourceId, CancellationToken cancellation)
    {
        var laid = new SqliteLaidOver(db);
        try
        {
            // References lead into the register, where a temporary table cannot follow them.
            db.Database.SetConnectionString(new SqliteConnectionStringBuilder(laid._before)
            {
                Mode = SqliteOpenMode.ReadOnly,
                ForeignKeys = false,
                Pooling = false,
            }.ToString());
            await db.Database.OpenConnectionAsync(cancellation);
            foreach (var layer in LaidOver.Of("main.", sourceId))
            {
                await laid.LayAsync(layer, cancellation);
            }

            return laid;
        }
        catch
        {
            await laid.DisposeAsync();
            throw;
        }
    }

    // Whoever reads alone leaves the log of the register behind; whoever may write and closes last takes it away.
    public async ValueTask DisposeAsync()
    {
        await _db.Database.CloseConnectionAsync();
        _db.Database.SetConnectionString(_before);
        await _db.Database.OpenConnectionAsync();
        await _db.Database.CloseConnectionAsync();
        SqliteConnection.ClearPool((SqliteConnection)_db.Database.GetDbConnection());
    }

    private async Task LayAsync(LaidOver.Layer layer, CancellationToken cancellation)
    {
        foreach (var statement in await MadeByAsync(layer.Name, cancellation))
        {
            await ExecuteAsync(statement, cancellation);
        }

        if (layer.Copied is { } copied)
        {
            await ExecuteAsync(
                $"INSERT INTO temp.{layer.Name} SELECT * FROM main.{layer.Name} WHERE {copied}", cancellation);
        }

        if (layer.HasKey)
        {
            await ExecuteAsync(
                $"""
                DELETE FROM temp.sqlite_sequence WHERE name = '{layer.Name}';
                INSERT INTO temp.sqlite_sequence (name, seq)
                    SELECT name, seq FROM main.sqlite_sequence WHERE name = '{layer.Name}'
                """, cancellation);
        }
    }

    // The table first, and its indexes after it, as the register has them.
    private async Task<List<string>> MadeByAsync(string table, CancellationToken cancellation)
    {
        await using var command = Command(
            $"""
            SELECT type, sql FROM main.sqlite_master WHERE tbl_name = '{table}' AND type IN ('table', 'index')
                AND sql IS NOT NULL ORDER BY type DESC
            """);
        await using var reader = await command.ExecuteReaderAsync(cancellation);
        List<string> statements = [];
        while (await reader.ReadAsync(cancellation))
        {
            var made = reader.GetString(1);
            var name = reader.GetString(0) == "table" ? "TABLE " : "INDEX ";
            var at = made.IndexOf(name, StringComparison.OrdinalIgnoreCase) + name.Length;
            statements.Add($"{made[..at]}temp.{made[at..]}");
        }

        return statements;
    }

    private async Task ExecuteAsync(string sql, CancellationToken cancellation)
    {
        await using var command = Command(sql);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private SqliteCommand Command(string sql)
    {
        var command = ((SqliteConnection)_db.Database.GetDbConnection()).CreateCommand();
        command.CommandText = sql;
        command.CommandTimeout = 0;
        return command;
    }
}
