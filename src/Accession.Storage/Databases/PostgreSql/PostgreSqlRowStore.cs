using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>Intake by arrays: a slice is one statement, whatever its length.</summary>
internal sealed class PostgreSqlRowStore : IRowStore
{
    private const string StoreRows = """
        INSERT INTO batch_row
            (batch_id, first_list_id, last_list_id, line, identity, occurrence, pair_key, cells, sheets, open_problems,
            catalog_number)
        SELECT @batch, @list, @list, * FROM unnest(
            @lines, @identities, @occurrences, @pairs, @cells, @sheets, @open, @numbers)
        ON CONFLICT (batch_id, identity, occurrence) DO UPDATE SET
            last_list_id = excluded.last_list_id, line = excluded.line,
            pair_key = excluded.pair_key, sheets = excluded.sheets, open_problems = excluded.open_problems,
            catalog_number = excluded.catalog_number
        RETURNING id, line
        """;

    private const string RewriteRows = """
        WITH staged (id, pair_key, sheets, open_problems, catalog_number) AS (
            SELECT * FROM unnest(@ids, @pairs, @sheets, @open, @numbers)),
        forgotten AS (
            DELETE FROM row_problem WHERE row_id = ANY (@ids) AND NOT from_file)
        UPDATE batch_row SET
            pair_key = staged.pair_key, sheets = staged.sheets, catalog_number = staged.catalog_number,
            open_problems = staged.open_problems
                + (SELECT count(*) FROM row_problem WHERE row_id = staged.id AND from_file AND blocks)
        FROM staged WHERE batch_row.id = staged.id
        """;

    private const string WarnRows = """
        WITH warned (id, warning) AS (SELECT * FROM unnest(@ids, @warnings))
        UPDATE batch_row SET permit_warning = warned.warning FROM warned WHERE batch_row.id = warned.id
        """;

    private const string StoreProblems = """
        INSERT INTO row_problem (batch_id, list_id, row_id, line, column_name, text, reason, blocks, from_file)
        SELECT @batch, @list, * FROM unnest(@rows, @lines, @columns, @texts, @reasons, @blocks, @files)
        """;

    public async Task StoreAsync(AccessionDb db, RowSlice slice, CancellationToken cancellation)
    {
        var ids = slice.Rows.Count == 0 ? [] : await StoreRowsAsync(db, slice, cancellation);
        var problems = slice.Rows.SelectMany(row => row.Problems.Select(p => (Row: (long?)ids[row.Line], p)))
            .Concat(slice.LinesNotRead.Select(p => (Row: (long?)null, p)));
        await StoreProblemsAsync(db, slice, [.. problems], cancellation);
    }

    public async Task RewriteAsync(AccessionDb db, RowSlice slice, CancellationToken cancellation)
    {
        await using (var command = Command(db, RewriteRows))
        {
            Add(command, "ids", slice.Rows, row => row.Id);
            Add(command, "pairs", slice.Rows, row => row.PairKey);
            Add(command, "sheets", slice.Rows, row => row.Sheets);
            Add(command, "open", slice.Rows, row => row.OpenProblems);
            Add(command, "numbers", slice.Rows, row => row.CatalogNumber);
            await command.ExecuteNonQueryAsync(cancellation);
        }

        await StoreProblemsAsync(
            db, slice, [.. slice.Rows.SelectMany(row => row.Problems.Select(p => ((long?)row.Id, p)))], cancellation);
    }

    public async Task WarnAsync(AccessionDb db, IReadOnlyList<RowWarning> warnings, CancellationToken cancellation)
    {
        await using var command = Command(db, WarnRows);
        Add(command, "ids", warnings, row => row.Id);
        Add(command, "warnings", warnings, row => row.Warning);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private static async Task<Dictionary<int, long>> StoreRowsAsync(
        AccessionDb db, RowSlice slice, CancellationToken cancellation)
    {
        await using var command = Command(db, StoreRows);
        command.Parameters.AddWithValue("batch", slice.BatchId);
        command.Parameters.AddWithValue("list", slice.ListId);
        Add(command, "lines", slice.Rows, row => row.Line);
        Add(command, "identities", slice.Rows, row => row.Identity);
        Add(command, "occurrences", slice.Rows, row => row.Occurrence);
        Add(command, "pairs", slice.Rows, row => row.PairKey);
        Add(command, "cells", slice.Rows, row => row.Cells);
        Add(command, "sheets", slice.Rows, row => row.Sheets);
        Add(command, "open", slice.Rows, row => row.OpenProblems);
        Add(command, "numbers", slice.Rows, row => row.CatalogNumber);
        var ids = new Dictionary<int, long>(slice.Rows.Count);
        await using var reader = await command.ExecuteReaderAsync(cancellation);
        while (await reader.ReadAsync(cancellation))
        {
            ids[reader.GetInt32(1)] = reader.GetInt64(0);
        }

        return ids;
    }

    private static async Task StoreProblemsAsync(
        AccessionDb db, RowSlice slice, List<(long? Row, StagedProblem Problem)> problems,
        CancellationToken cancellation)
    {
        if (problems.Count == 0)
        {
            return;
        }

        await using var command = Command(db, StoreProblems);
        command.Parameters.AddWithValue("batch", slice.BatchId);
        command.Parameters.AddWithValue("list", slice.ListId);
        Add(command, "rows", problems, p => p.Row);
        Add(command, "lines", problems, p => p.Problem.Line);
        Add(command, "columns", problems, p => p.Problem.ColumnName);
        Add(command, "texts", problems, p => p.Problem.Text);
        Add(command, "reasons", problems, p => p.Problem.Reason);
        Add(command, "blocks", problems, p => p.Problem.Blocks);
        Add(command, "files", problems, p => p.Problem.FromFile);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private static void Add<TItem, TValue>(
        NpgsqlCommand command, string name, IReadOnlyList<TItem> items, Func<TItem, TValue> value) =>
        command.Parameters.AddWithValue(name, items.Select(value).ToArray());

    private static NpgsqlCommand Command(AccessionDb db, string sql) =>
        new(sql, (NpgsqlConnection)db.Database.GetDbConnection(),
            (NpgsqlTransaction?)db.Database.CurrentTransaction?.GetDbTransaction());
}
