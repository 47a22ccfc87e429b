using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Accession.Storage.Databases;

/// <summary>
/// Reads one column of whole numbers by the driver alone: an index answers sooner than a query is taken apart to ask
/// it.
/// </summary>
internal static class FoundKeys
{
    /// <param name="db">The register.</param>
    /// <param name="sql">The statement, with @words and whatever else it names.</param>
    /// <param name="values">What the names stand for.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<List<long>> ReadAsync(
        AccessionDb db, string sql, IEnumerable<(string Name, object Value)> values, CancellationToken cancellation)
    {
        await db.Database.OpenConnectionAsync(cancellation);
        try
        {
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = sql;
            command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
            foreach (var (name, value) in values)
            {
                command.Parameters.Add(Parameter(command, name, value));
            }

            await using var rows = await command.ExecuteReaderAsync(cancellation);
            List<long> keys = [];
            while (await rows.ReadAsync(cancellation))
            {
                keys.Add(rows.GetInt64(0));
            }

            return keys;
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    private static DbParameter Parameter(DbCommand command, string name, object value)
    {
        var parameter = command.CreateParameter();
        (parameter.ParameterName, parameter.Value) = (name, value);
        return parameter;
    }
}
