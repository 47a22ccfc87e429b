using System.Collections.Concurrent;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.ValueGeneration;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>
/// Keys of acts, specimens and parts, drawn from their sequences some at a time before the rows are stored. Rows that
/// refer to one another then go to the server together: a sheet is numbered while others wait for the counter, and each
/// way to the server would make them wait. Keys that a stopped process had drawn are never used; nobody reads them.
/// </summary>
internal sealed class PostgreSqlKeys
{
    private const int AtATime = 64;

    private readonly ConcurrentDictionary<string, ConcurrentQueue<long>> _drawn = new(StringComparer.Ordinal);

    public static void DrawIn(ModelBuilder builder)
    {
        builder.Entity<Act>().Property(act => act.Id).HasValueGenerator((_, _) => new Draw("act"));
        builder.Entity<Specimen>().Property(specimen => specimen.Id).HasValueGenerator((_, _) => new Draw("specimen"));
        builder.Entity<Part>().Property(part => part.Id).HasValueGenerator((_, _) => new Draw("part"));
    }

    private long Next(AccessionDb db, string table)
    {
        var drawn = _drawn.GetOrAdd(table, _ => new());
        if (drawn.TryDequeue(out var key))
        {
            return key;
        }

        // Two who find none both draw; the surplus is for later.
        var more = db.Database.SqlQuery<long>(
            $"""
            SELECT nextval(pg_get_serial_sequence({table}, 'id')) AS "Value" FROM generate_series(1, {AtATime})
            """).ToList();
        foreach (var other in more.Skip(1))
        {
            drawn.Enqueue(other);
        }

        return more[0];
    }

    private sealed class Draw(string table) : ValueGenerator<long>
    {
        public override bool GeneratesTemporaryValues => false;

        public override long Next(EntityEntry entry)
        {
            var db = (AccessionDb)entry.Context;
            return ((PostgreSqlDatabase)db.Kind).Keys.Next(db, table);
        }
    }
}
