using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using SQLitePCL;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>The register as one file, copied page by page with the engine's own calls.</summary>
internal sealed class SqliteWholeRegister : IWholeRegister
{
    private const string Part = "register.db";
    private const int PagesAtATime = 2048;

    public bool IsInDataFolder => true;

    // The data folder is empty, and so is its register.
    public Task<bool> IsFreeAsync(AccessionDb db, CancellationToken cancellation) => Task.FromResult(true);

    public async Task<long> SizeAsync(AccessionDb db, CancellationToken cancellation) =>
        await AskAsync<long>(db, "PRAGMA page_count", cancellation)
        * await AskAsync<long>(db, "PRAGMA page_size", cancellation);

    // The copy is a file of its own before it is a part: pages come in the order in which they are asked for, and a
    // part is written from its beginning to its end. The transaction that reads holds its moment whatever others write.
    public async Task CopyOutAsync(
        AccessionDb db, IReadOnlyList<RegisterTable> tables, string scratch, KeepPart keep,
        CancellationToken cancellation)
    {
        await using (var copy = new SqliteConnection(Unpooled(scratch)))
        {
            await copy.OpenAsync(cancellation);
            await ExecuteAsync(copy, "PRAGMA journal_mode = OFF", cancellation);
            await ExecuteAsync(copy, "PRAGMA synchronous = OFF", cancellation);
            CopyPages((SqliteConnection)db.Database.GetDbConnection(), copy, cancellation);
            if (await WhyUnsoundAsync(copy, cancellation) is { } unsound)
            {
                throw new InvalidDataException(
                    $"The register itself is damaged, so no backup was made of it: {unsound}");
            }
        }

        await keep(Part, async part =>
        {
            await using var file = new FileStream(scratch, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 20);
            await file.CopyToAsync(part, 1 << 20, cancellation);
        });
    }

    public async Task<string?> PutBackAsync(AccessionDb db, PutBack how, CancellationToken cancellation)
    {
        var file = new SqliteConnectionStringBuilder(db.Database.GetConnectionString()).DataSource;
        await using (var register = new FileStream(file, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 20))
        {
            await using var part = how.Open(Part);
            await part.CopyToAsync(register, 1 << 20, cancellation);
            register.Flush(flushToDisk: true);
        }

        await db.Database.OpenConnectionAsync(cancellation);
        var connection = (SqliteConnection)db.Database.GetDbConnection();
        try
        {
            return await WhyUnsoundAsync(connection, cancellation)
                ?? await RegisterTables.WhyOtherAsync(db, how.Tables, cancellation)
                ?? await BringUpAsync(db, how, cancellation);
        }
        finally
        {
            // The folder is renamed next: nothing may hold the file, nor lie in a log beside it.
            await ExecuteAsync(connection, "PRAGMA wal_checkpoint(TRUNCATE)", CancellationToken.None);
            await db.Database.CloseConnectionAsync();
            SqliteConnection.ClearPool(connection);
        }
    }

    private static async Task<string?> BringUpAsync(AccessionDb db, PutBack how, CancellationToken cancellation)
    {
        await db.Kind.BeforeMigratingAsync(db, cancellation);   // which makes it keep a log again, as a copy does not
        await db.Database.MigrateAsync(cancellation);
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        var reason = await how.Finish();
        if (reason is null)
        {
            await transaction.CommitAsync(cancellation);
        }

        return reason;
    }

    private static void CopyPages(SqliteConnection from, SqliteConnection to, CancellationToken cancellation)
    {
        using var backup = raw.sqlite3_backup_init(to.Handle, "main", from.Handle, "main");
        if (backup.IsInvalid)
        {
            SqliteException.ThrowExceptionForRC(raw.sqlite3_errcode(to.Handle), to.Handle);
        }

        int answer;
        do
        {
            cancellation.ThrowIfCancellationRequested();
            answer = raw.sqlite3_backup_step(backup, PagesAtATime);
        }
        while (answer == raw.SQLITE_OK);

        if (answer != raw.SQLITE_DONE)
        {
            SqliteException.ThrowExceptionForRC(answer, to.Handle);
        }
    }

    private static async Task<string?> WhyUnsoundAsync(SqliteConnection connection, CancellationToken cancellation)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA quick_check(1)";
        command.CommandTimeout = 0;
        return await command.ExecuteScalarAsync(cancellation) is "ok" ? null : "the file of the register is not sound.";
    }

    private static async Task<T> AskAsync<T>(AccessionDb db, string pragma, CancellationToken cancellation)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = pragma;
        return (T)(await command.ExecuteScalarAsync(cancellation))!;
    }

    private static async Task ExecuteAsync(SqliteConnection connection, string sql, CancellationToken cancellation)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private static string Unpooled(string file) =>
        new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString();
}
