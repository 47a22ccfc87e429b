using System.Text.RegularExpressions;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Tests.Schema;

/// <summary>The two databases keep the same tables under the same names, as they stand in the database itself.</summary>
[Trait("Store", "postgres")]
public sealed partial class SchemaTests(StoreOnSqlite sqlite, StoreOnPostgreSql postgres)
    : IClassFixture<StoreOnSqlite>, IClassFixture<StoreOnPostgreSql>
{
    // A JSON column of Identity's own, which no statement of ours mentions.
    private const string NamedByIdentity = "asp_net_user_passkeys.Data";

    private const string OfSqlite = """
        SELECT t.name || '.' || c.name AS "Value" FROM sqlite_master t JOIN pragma_table_info(t.name) c
        WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' AND t.name NOT LIKE '\_\_EF%' ESCAPE '\'
            AND t.name NOT LIKE 'specimen\_find%' ESCAPE '\'
        """;

    private const string OfPostgreSql = """
        SELECT table_name || '.' || column_name AS "Value" FROM information_schema.columns
        WHERE table_schema = 'public' AND table_name NOT LIKE '\_\_EF%'
        """;

    private const string IndexesOfSqlite = """
        SELECT name AS "Value" FROM sqlite_master WHERE type = 'index' AND name NOT LIKE 'sqlite%'
        """;

    private const string IndexesOfPostgreSql = """
        SELECT indexname AS "Value" FROM pg_indexes WHERE schemaname = 'public' AND indexname NOT LIKE 'pk\_%'
            AND indexname NOT LIKE 'PK\_%' AND indexname <> 'ix_specimen_find'
        """;

    [Fact]
    public async Task Both_have_the_same_tables_and_columns() =>
        Assert.Equal(await ListAsync(sqlite, OfSqlite), await ListAsync(postgres, OfPostgreSql));

    [Fact]
    public async Task Both_have_the_same_indexes() =>
        Assert.Equal(await ListAsync(sqlite, IndexesOfSqlite), await ListAsync(postgres, IndexesOfPostgreSql));

    // A migration that builds the table anew would take them away without a word.
    [Fact]
    public async Task The_words_of_sheets_are_kept_by_triggers_and_by_an_index()
    {
        Assert.Equal(
            ["specimen_find_added", "specimen_find_changed", "specimen_find_taken"],
            await ListAsync(sqlite, """SELECT name AS "Value" FROM sqlite_master WHERE type = 'trigger'"""));
        Assert.Single(await ListAsync(
            postgres, """SELECT indexname AS "Value" FROM pg_indexes WHERE indexname = 'ix_specimen_find'"""));
    }

    [Fact]
    public async Task Names_are_in_snake_case() =>
        Assert.All(
            (await ListAsync(sqlite, OfSqlite)).Except([NamedByIdentity]), name => Assert.Matches(SnakeCase(), name));

    [Fact]
    public async Task The_PostgreSQL_database_sorts_by_bytes()
    {
        await using var db = postgres.Open();
        var first = await db.Database
            .SqlQueryRaw<string>("SELECT x AS \"Value\" FROM (VALUES ('b'), ('a'), ('B')) v(x) ORDER BY x").ToListAsync();
        Assert.Equal(["B", "a", "b"], first);
    }

    /// <summary>
    /// Statistics of a register in which nothing was ever corrected once led SQLite through the whole table for each
    /// row: its documentation of ANALYZE and of partial indexes says how it counts.
    /// </summary>
    [Fact]
    public async Task What_a_row_replaced_is_found_by_its_index_whatever_the_statistics_say()
    {
        await using var db = sqlite.Open();
        await InventedSheets.SeedAsync(
            db, new DateTime(2026, 3, 5, 9, 0, 0, DateTimeKind.Utc),
            [.. Enumerable.Repeat("x", 50).Select(InventedSheets.Everywhere)]);
        await db.Database.ExecuteSqlRawAsync("ANALYZE");
        await db.Database.CloseConnectionAsync();
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = "EXPLAIN QUERY PLAN " + db.Rows
            .Where(row => db.Rows.Any(old => old.SupersededById == row.Id && old.GatheringId != null))
            .AsSingleQuery().ToQueryString();

        List<string> plan = [];
        await using var reader = await command.ExecuteReaderAsync();
        while (await reader.ReadAsync())
        {
            plan.Add(reader.GetString(3));
        }

        Assert.Contains(
            plan, step => step.Contains("ix_batch_row_superseded_by_id (superseded_by_id=?)", StringComparison.Ordinal));
    }

    private static async Task<List<string>> ListAsync(TestStore store, string sql)
    {
        await using var db = store.Open();
        var names = await db.Database.SqlQueryRaw<string>(sql).ToListAsync();
        return [.. names.Order(StringComparer.Ordinal)];
    }

    [GeneratedRegex(@"^[a-z0-9_]+\.[a-z0-9_]+$")]
    private static partial Regex SnakeCase();
}
