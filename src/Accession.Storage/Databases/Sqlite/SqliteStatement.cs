using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using SQLitePCL;
using static SQLitePCL.raw;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// A statement that changes rows, prepared once and run again and again, its values bound by their place. The driver
/// looks up the place of each name at each run. It is part of the open transaction of the connection, as everything on
/// it is.
/// </summary>
internal sealed class SqliteStatement : IDisposable
{
    private readonly sqlite3 _connection;
    private readonly sqlite3_stmt _statement;

    public SqliteStatement(AccessionDb db, string sql)
    {
        _connection = ((SqliteConnection)db.Database.GetDbConnection()).Handle!;
        SqliteException.ThrowExceptionForRC(sqlite3_prepare_v2(_connection, sql, out _statement), _connection);
    }

    /// <summary>Says what stands in a place of the next runs, until it is said again; places count from 1.</summary>
    public SqliteStatement Bind(int place, long? value)
    {
        SqliteException.ThrowExceptionForRC(
            value is { } whole
                ? sqlite3_bind_int64(_statement, place, whole)
                : sqlite3_bind_null(_statement, place),
            _connection);
        return this;
    }

    /// <summary>Says what stands in a place of the next runs.</summary>
    public SqliteStatement Bind(int place, ReadOnlySpan<byte> value)
    {
        SqliteException.ThrowExceptionForRC(sqlite3_bind_blob(_statement, place, value), _connection);
        return this;
    }

    /// <summary>Says what stands in a place of the next runs.</summary>
    public SqliteStatement Bind(int place, string value)
    {
        SqliteException.ThrowExceptionForRC(sqlite3_bind_text(_statement, place, value), _connection);
        return this;
    }

    public void Run()
    {
        var result = sqlite3_step(_statement);
        sqlite3_reset(_statement);
        if (result != SQLITE_DONE)
        {
            SqliteException.ThrowExceptionForRC(result, _connection);
        }
    }

    /// <summary>Runs a statement that returns the key of the row it changed.</summary>
    public long RunForKey()
    {
        var result = sqlite3_step(_statement);
        var key = result == SQLITE_ROW ? sqlite3_column_int64(_statement, 0) : 0;
        result = result == SQLITE_ROW ? sqlite3_step(_statement) : result;
        sqlite3_reset(_statement);
        if (result != SQLITE_DONE)
        {
            SqliteException.ThrowExceptionForRC(result, _connection);
        }

        return key;
    }

    public void Dispose() => _statement.Dispose();
}
