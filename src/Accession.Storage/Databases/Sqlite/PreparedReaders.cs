using System.Collections.Concurrent;
using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// Carries out what is <see cref="AskedOften"/> with statements that are prepared already. The driver prepares anew
/// whenever a connection was closed in between, and that took more than a quarter of the time of a sheet. So a few
/// connections stay open that only read such statements, one request's at a time; a transaction asks its own
/// connection, because only that sees what it has written. One for each register.
/// </summary>
public sealed class PreparedReaders : DbCommandInterceptor, IDisposable
{
    // More requests than this at once are rare, and each of these holds a cache of pages.
    private const int MostKept = 16;

    // The one used last comes first: its pages are still in its cache.
    private readonly ConcurrentStack<PreparedReader> _free = [];
    private readonly ConcurrentDictionary<DbDataReader, PreparedReader> _inUse = [];
    private volatile bool _closed;

    /// <summary>How many connections wait for the next question.</summary>
    public int Kept => _free.Count;

    public override InterceptionResult<DbDataReader> ReaderExecuting(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result)
    {
        if (!AskedOften.Is(command.CommandText) || command.Transaction is not null)
        {
            return result;
        }

        var reader = _free.TryPop(out var kept) ? kept : new(command.Connection!.ConnectionString);
        try
        {
            var rows = reader.Execute(command);
            _inUse[rows] = reader;
            return InterceptionResult<DbDataReader>.SuppressWithResult(rows);
        }
        catch
        {
            reader.Dispose();
            throw;
        }
    }

    // SQLite answers on the thread that asks.
    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result,
        CancellationToken cancellationToken = default) => new(ReaderExecuting(command, eventData, result));

    public override InterceptionResult DataReaderDisposing(
        DbCommand command, DataReaderDisposingEventData eventData, InterceptionResult result)
    {
        if (_inUse.TryRemove(eventData.DataReader, out var reader))
        {
            eventData.DataReader.Dispose();   // only then may the next one have its statement
            GiveBack(reader);
        }

        return result;
    }

    public void Dispose()
    {
        _closed = true;
        while (_free.TryPop(out var reader))
        {
            reader.Dispose();
        }
    }

    private void GiveBack(PreparedReader reader)
    {
        if (_closed || _free.Count >= MostKept)
        {
            reader.Dispose();
        }
        else
        {
            _free.Push(reader);
        }
    }
}

/// <summary>A connection that only reads, with the statements it was asked so far.</summary>
internal sealed class PreparedReader : IDisposable
{
    private readonly SqliteConnection _connection;
    private readonly Dictionary<string, SqliteCommand> _prepared = new(StringComparer.Ordinal);

    public PreparedReader(string connection)
    {
        _connection = new(new SqliteConnectionStringBuilder(connection)
        {
            Mode = SqliteOpenMode.ReadOnly,
            Pooling = false,   // what is closed is gone, and nobody else gets it
        }.ToString());
        _connection.Open();
        SqlitePragmas.Tell(_connection);
    }

    /// <summary>Asks what a command asks, with its values.</summary>
    public SqliteDataReader Execute(DbCommand asked)
    {
        if (!_prepared.TryGetValue(asked.CommandText, out var command))
        {
            command = Prepared(asked);
            _prepared.Add(asked.CommandText, command);
        }

        for (var i = 0; i < asked.Parameters.Count; i++)
        {
            command.Parameters[i].Value = asked.Parameters[i].Value;
        }

        return command.ExecuteReader();
    }

    public void Dispose() => _connection.Dispose();   // with its commands

    private SqliteCommand Prepared(DbCommand asked)
    {
        var command = _connection.CreateCommand();
        command.CommandText = asked.CommandText;
        foreach (DbParameter parameter in asked.Parameters)
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = parameter.ParameterName });
        }

        return command;
    }
}
