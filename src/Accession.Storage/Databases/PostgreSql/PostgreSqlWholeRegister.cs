using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>
/// The register table by table in the server's binary form (PostgreSQL documentation, COPY). The tables themselves are
/// made by the migrations up to that of the backup, so a backup holds rows and nothing that is carried out.
/// </summary>
internal sealed class PostgreSqlWholeRegister : IWholeRegister
{
    private const string Ours = "current_schema()::regnamespace";

    private const string AnythingThere =
        $"SELECT count(*) FROM pg_class WHERE relnamespace = {Ours} AND relkind IN ('r', 'p', 'v', 'm', 'f')";

    // What makes filling slow and its order matter: it is taken away, and made again over the filled tables, which
    // proves that every row refers to one that is there.
    private const string Hindrances = $"""
        SELECT 'ALTER TABLE ' || conrelid::regclass || ' DROP CONSTRAINT ' || quote_ident(conname),
            'ALTER TABLE ' || conrelid::regclass || ' ADD CONSTRAINT ' || quote_ident(conname) || ' '
                || pg_get_constraintdef(oid), 1
        FROM pg_constraint WHERE contype = 'f' AND connamespace = {Ours}
        UNION ALL
        SELECT 'DROP INDEX ' || indexrelid::regclass, pg_get_indexdef(indexrelid), 2
        FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid
        WHERE c.relnamespace = {Ours} AND NOT EXISTS (SELECT FROM pg_constraint k WHERE k.conindid = i.indexrelid
            AND k.contype IN ('p', 'u', 'x'))
        ORDER BY 3
        """;

    private const string KeysGoOn = """
        DO $$
        DECLARE
            keys record;
            highest bigint;
        BEGIN
            FOR keys IN SELECT quote_ident(table_name) AS in_table, column_name
                FROM information_schema.columns WHERE table_schema = current_schema() AND is_identity = 'YES'
            LOOP
                EXECUTE format('SELECT max(%I) FROM %s', keys.column_name, keys.in_table) INTO highest;
                IF highest IS NOT NULL THEN
                    PERFORM setval(pg_get_serial_sequence(keys.in_table, keys.column_name), highest);
                END IF;
            END LOOP;
        END $$
        """;

    public bool IsInDataFolder => false;

    public async Task<bool> IsFreeAsync(AccessionDb db, CancellationToken cancellation)
    {
        if (!await db.GetService<IRelationalDatabaseCreator>().ExistsAsync(cancellation))
        {
            return true;
        }

        await db.Database.OpenConnectionAsync(cancellation);
        try
        {
            return await AskAsync(Connection(db), AnythingThere, cancellation) == 0;
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    public Task<long> SizeAsync(AccessionDb db, CancellationToken cancellation) => AskAsync(
        Connection(db),
        "SELECT coalesce(sum(pg_table_size(oid)), 0)::bigint FROM pg_class "
        + $"WHERE relnamespace = {Ours} AND relkind = 'r'",
        cancellation);

    public async Task CopyOutAsync(
        AccessionDb db, IReadOnlyList<RegisterTable> tables, string scratch, KeepPart keep,
        CancellationToken cancellation)
    {
        var connection = Connection(db);
        foreach (var table in tables)
        {
            await keep(Part(table), async part =>
            {
                await using var rows = await connection.BeginRawBinaryCopyAsync(
                    $"COPY {Shape(table)} TO STDOUT (FORMAT binary)", cancellation);
                await rows.CopyToAsync(part, cancellation);
            });
        }
    }

    public async Task<string?> PutBackAsync(AccessionDb db, PutBack how, CancellationToken cancellation)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        var connection = Connection(db);
        var migrator = db.GetService<IMigrator>();
        // It asks which migrations were made, and the answer that there is no such table would end the transaction.
        await ExecuteAsync(connection, db.GetService<IHistoryRepository>().GetCreateIfNotExistsScript(), cancellation);
        await migrator.MigrateAsync(how.Migration, cancellation);
        var hindrances = await HindrancesAsync(connection, cancellation);
        await ExecuteAsync(connection, string.Join(";\n", hindrances.Select(each => each.Drop)), cancellation);
        foreach (var table in how.Tables)
        {
            await FillAsync(connection, table, how, cancellation);
        }

        hindrances.Reverse();   // a reference needs the index of what it refers to
        await ExecuteAsync(connection, string.Join(";\n", hindrances.Select(each => each.Make)), cancellation);
        var reason = await RegisterTables.WhyOtherAsync(db, how.Tables, cancellation);
        if (reason is not null)
        {
            return reason;
        }

        await ExecuteAsync(connection, KeysGoOn, cancellation);
        await migrator.MigrateAsync(null, cancellation);
        await ExecuteAsync(connection, "ANALYZE", cancellation);
        reason = await how.Finish();
        if (reason is null)
        {
            await transaction.CommitAsync(cancellation);
        }

        return reason;
    }

    private static async Task FillAsync(
        NpgsqlConnection connection, RegisterTable table, PutBack how, CancellationToken cancellation)
    {
        // What a migration wrote into it, such as the regimes to begin with, is in the backup as it became.
        await ExecuteAsync(connection, $"DELETE FROM {RegisterTables.Quoted(table.Name)}", cancellation);
        await using var part = how.Open(Part(table));
        var rows = await connection.BeginRawBinaryCopyAsync(
            $"COPY {Shape(table)} FROM STDIN (FORMAT binary)", cancellation);
        try
        {
            await part.CopyToAsync(rows, 1 << 20, cancellation);
        }
        catch
        {
            await rows.CancelAsync();   // disposed without that it would count as the end of the rows
            throw;
        }

        await rows.DisposeAsync();
    }

    private static async Task<List<(string Drop, string Make)>> HindrancesAsync(
        NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using var command = new NpgsqlCommand(Hindrances, connection);
        await using var found = await command.ExecuteReaderAsync(cancellation);
        List<(string Drop, string Make)> hindrances = [];
        while (await found.ReadAsync(cancellation))
        {
            hindrances.Add((found.GetString(0), found.GetString(1)));
        }

        return hindrances;
    }

    private static string Part(RegisterTable table) => $"tables/{table.Name}.copy";

    private static string Shape(RegisterTable table) =>
        $"{RegisterTables.Quoted(table.Name)} ({string.Join(", ", table.Columns.Select(RegisterTables.Quoted))})";

    private static NpgsqlConnection Connection(AccessionDb db) => (NpgsqlConnection)db.Database.GetDbConnection();

    private static async Task<long> AskAsync(NpgsqlConnection connection, string sql, CancellationToken cancellation)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        return (long)(await command.ExecuteScalarAsync(cancellation))!;
    }

    // An index over a large register takes as long as it takes.
    private static async Task ExecuteAsync(NpgsqlConnection connection, string sql, CancellationToken cancellation)
    {
        if (sql.Length > 0)
        {
            await using var command = new NpgsqlCommand(sql, connection) { CommandTimeout = 0 };
            await command.ExecuteNonQueryAsync(cancellation);
        }
    }
}
