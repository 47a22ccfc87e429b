using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>Adds the words by which PostgreSQL holds the rows of a query; see <see cref="HeldRows"/>.</summary>
public sealed class PostgreSqlHeldRows : DbCommandInterceptor
{
    // No key ever changes. Without this, whoever stores a row that refers to a held one would wait as well.
    private const string Hold = "FOR NO KEY UPDATE";
    internal const string UnlessTaken = $"{Hold} SKIP LOCKED";
    private const string Waiting = $"-- {HeldRows.WaitingMark}\n";
    private const string Together = $"-- {HeldRows.TogetherMark}\n";
    private const string Free = $"-- {HeldRows.FreeMark}\n";

    public override InterceptionResult<DbDataReader> ReaderExecuting(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result)
    {
        AddTo(command);
        return result;
    }

    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result,
        CancellationToken cancellationToken = default)
    {
        AddTo(command);
        return ValueTask.FromResult(result);
    }

    private static void AddTo(DbCommand command)
    {
        var text = command.CommandText;
        if (text.StartsWith(Waiting, StringComparison.Ordinal))
        {
            command.CommandText = text + $"\n{Hold}";
        }
        else if (text.StartsWith(Together, StringComparison.Ordinal))
        {
            command.CommandText = text + "\nFOR SHARE";
        }
        else if (text.StartsWith(Free, StringComparison.Ordinal))
        {
            command.CommandText = text + $"\n{UnlessTaken}";
        }
    }
}
