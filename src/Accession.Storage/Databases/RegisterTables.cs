using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Databases;

/// <summary>What the register is made of, and how much of it there is.</summary>
public static class RegisterTables
{
    /// <summary>Every table with its columns and the number of its rows, as the open transaction sees them.</summary>
    public static async Task<IReadOnlyList<RegisterTable>> OfAsync(AccessionDb db, CancellationToken cancellation)
    {
        List<RegisterTable> tables = [];
        foreach (var table in db.Model.GetRelationalModel().Tables.OrderBy(table => table.Name, StringComparer.Ordinal))
        {
            tables.Add(new(
                table.Name,
                [.. table.Columns.Select(column => column.Name).Order(StringComparer.Ordinal)],
                await CountAsync(db, table.Name, cancellation)));
        }

        return tables;
    }

    /// <summary>Which table does not hold as many rows as it should, in a sentence; null when all do.</summary>
    internal static async Task<string?> WhyOtherAsync(
        AccessionDb db, IReadOnlyList<RegisterTable> tables, CancellationToken cancellation)
    {
        foreach (var table in tables)
        {
            var rows = await CountAsync(db, table.Name, cancellation);
            if (rows != table.Rows)
            {
                return $"The backup says that {table.Name} has {table.Rows} rows, but it has {rows}. "
                    + "Take another backup.";
            }
        }

        return null;
    }

    /// <summary>A name as both databases quote it.</summary>
    internal static string Quoted(string name) => $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static async Task<long> CountAsync(AccessionDb db, string table, CancellationToken cancellation)
    {
        var sql = $"SELECT count(*) AS \"Value\" FROM {Quoted(table)}";
        var counted = await db.Database.SqlQueryRaw<long>(sql).ToListAsync(cancellation);
        return counted.Single();
    }
}
