using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>
/// Temporary tables over those of intake: a name without a schema means the temporary table first. They get their
/// names when they are filled, because until then the name means that of the register.
/// </summary>
internal sealed class PostgreSqlLaidOver : IAsyncDisposable
{
    private readonly AccessionDb _db;

    private PostgreSqlLaidOver(AccessionDb db) => _db = db;

    public static async Task<PostgreSqlLaidOver> LayAsync(
        AccessionDb db, long? sourceId, CancellationToken cancellation)
    {
        var laid = new PostgreSqlLaidOver(db);
        await db.Database.OpenConnectionAsync(cancellation);
        try
        {
            var layers = LaidOver.Of("", sourceId).ToList();
            foreach (var layer in layers)
            {
                await laid.ExecuteAsync(Filled(layer), cancellation);
            }

            foreach (var layer in layers)
            {
                await laid.ExecuteAsync($"ALTER TABLE laid_{layer.Name} RENAME TO {layer.Name}", cancellation);
            }

            return laid;
        }
        catch
        {
            await laid.DisposeAsync();
            throw;
        }
    }

    // The connection goes back to its pool, and the next who gets it wants the register.
    public async ValueTask DisposeAsync()
    {
        await ExecuteAsync("DISCARD TEMP", CancellationToken.None);
        await _db.Database.CloseConnectionAsync();
    }

    private static string Filled(LaidOver.Layer layer)
    {
        var filled = $"CREATE TEMP TABLE laid_{layer.Name} (LIKE {layer.Name} INCLUDING ALL);";
        if (layer.Copied is { } copied)
        {
            filled += $"INSERT INTO laid_{layer.Name} OVERRIDING SYSTEM VALUE "
                + $"SELECT * FROM {layer.Name} WHERE {copied};";
        }

        if (layer.HasKey)
        {
            filled += $"SELECT setval(pg_get_serial_sequence('laid_{layer.Name}', 'id'), "
                + $"(SELECT coalesce(max(id), 0) + 1 FROM {layer.Name}), false);";
        }

        return filled;
    }

    private async Task ExecuteAsync(string sql, CancellationToken cancellation)
    {
        await using var command = new NpgsqlCommand(sql, (NpgsqlConnection)_db.Database.GetDbConnection());
        command.CommandTimeout = 0;
        await command.ExecuteNonQueryAsync(cancellation);
    }
}
