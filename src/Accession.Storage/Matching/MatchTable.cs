using System.Data.Common;
using System.Runtime.CompilerServices;
using Accession.Core.Matching;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Accession.Storage.Matching;

/// <summary>
/// The table of keys: under which keys the gatherings of the register and the rows of a batch are met, and what is
/// compared of each. Written in bulk, joined once for a batch, never held in memory. Everything in it is made from
/// exact places.
/// </summary>
public sealed class MatchTable(AccessionDb db)
{
    /// <summary>The kind of work that makes anew what corrected gatherings are compared by.</summary>
    public const string SignAgain = "compare gatherings anew";

    /// <summary>What is kept of a gathering or a row.</summary>
    public sealed record Entry(long Id, int Line, Signature Signature, IReadOnlyList<MatchKey> Keys)
    {
        /// <summary>The sheet's own number on the list; empty where it has none.</summary>
        public string CatalogNumber { get; init; } = "";

        /// <summary>The record's lasting identifier on the list; empty where it has none.</summary>
        public string OccurrenceId { get; init; } = "";
    }

    /// <summary>A key of a row as it is staged.</summary>
    public readonly record struct StagedKey(long RowId, int Line, MatchKey Key);

    /// <summary>Forgets what was staged for a batch.</summary>
    public Task ClearAsync(long batchId, CancellationToken cancellation) => db.Database.ExecuteSqlAsync(
        $"""
        DELETE FROM row_record WHERE row_id IN (SELECT id FROM batch_row WHERE batch_id = {batchId});
        DELETE FROM row_signature WHERE row_id IN (SELECT id FROM batch_row WHERE batch_id = {batchId});
        DELETE FROM row_key WHERE batch_id = {batchId}
        """, cancellation);

    /// <summary>Stages what is compared of rows, in the transaction of the caller. Their keys follow.</summary>
    public async Task StageAsync(IReadOnlyList<Entry> rows, CancellationToken cancellation) =>
        await db.Kind.Matches.StageAsync(db, rows, await RecordsAsync(rows, cancellation), cancellation);

    /// <summary>Stages keys of rows of a batch, in the transaction of the caller.</summary>
    public Task StageKeysAsync(long batchId, IReadOnlyList<StagedKey> keys, CancellationToken cancellation) =>
        db.Kind.Matches.StageKeysAsync(db, batchId, keys, cancellation);

    // The sheets of the register are asked by their own numbers; no key stands for them.
    private async Task<List<(long RowId, long GatheringId)>> RecordsAsync(
        IReadOnlyList<Entry> rows, CancellationToken cancellation)
    {
        var numbers = rows.Select(row => row.CatalogNumber).Where(text => text.Length > 0).ToList();
        var identifiers = rows.Select(row => row.OccurrenceId).Where(text => text.Length > 0).ToList();
        if (numbers.Count == 0 && identifiers.Count == 0)
        {
            return [];
        }

        var sheets = await db.Specimens
            .Where(sheet => numbers.Contains(sheet.CatalogNumber) || identifiers.Contains(sheet.OccurrenceId))
            .Select(sheet => new { sheet.CatalogNumber, sheet.OccurrenceId, sheet.GatheringId })
            .ToListAsync(cancellation);
        var byNumber = sheets.ToLookup(sheet => sheet.CatalogNumber, sheet => sheet.GatheringId);
        var byIdentifier = sheets.ToLookup(sheet => sheet.OccurrenceId, sheet => sheet.GatheringId);
        return
        [
            .. rows.SelectMany(row => byNumber[row.CatalogNumber].Concat(byIdentifier[row.OccurrenceId]).Distinct()
                .Select(gathering => (row.Id, gathering))),
        ];
    }

    /// <summary>Says that staging came to its end, so that the join is planned for as many rows as there are.</summary>
    public Task StagedAsync(CancellationToken cancellation) => CountAsync(
        ["row_key", "row_signature", "row_record", "gathering_key", "gathering_signature"], cancellation);

    /// <summary>Forgets staged rows that are in the register now, in the transaction of the caller.</summary>
    public async Task ForgetAsync(IReadOnlyCollection<long> rowIds, CancellationToken cancellation)
    {
        await db.Set<RowKey>().Where(key => rowIds.Contains(key.RowId)).ExecuteDeleteAsync(cancellation);
        await db.Set<RowSignature>().Where(one => rowIds.Contains(one.RowId)).ExecuteDeleteAsync(cancellation);
        await db.Set<RowRecord>().Where(one => rowIds.Contains(one.RowId)).ExecuteDeleteAsync(cancellation);
    }

    /// <summary>Keeps gatherings, new ones or again, in the transaction of the caller.</summary>
    public Task KeepAsync(IReadOnlyList<Entry> gatherings, CancellationToken cancellation) =>
        db.Kind.Matches.KeepAsync(db, gatherings, cancellation);

    /// <summary>Writes what rows were found to be, in the transaction of the caller.</summary>
    public Task FindAsync(IReadOnlyList<FoundRow> rows, CancellationToken cancellation) =>
        db.Kind.Matches.FindAsync(db, rows, cancellation);

    /// <summary>
    /// Gets ready to join the staged rows of these lines: finds the keys that too many share. The connection must stay
    /// open until the last join.
    /// </summary>
    public async Task PrepareAsync(long batchId, Lines lines, CancellationToken cancellation)
    {
        await ExecuteAsync(MatchStatements.Prepare, batchId, lines, cancellation);
        await ExecuteAsync(MatchStatements.WideKeys(lines), batchId, lines, cancellation);
        foreach (var statement in MatchStatements.Widths)
        {
            await ExecuteAsync(statement, batchId, lines, cancellation);
        }

        await CountAsync(["wide_key", "wide_day", "wide_detail", "crowded", "foremost"], cancellation);
    }

    /// <summary>
    /// Everything that the staged rows of these lines meet, in the order of their keys. The others of one row are gone
    /// when the next is asked for, so that a whole list may be joined at once.
    /// </summary>
    public async IAsyncEnumerable<Met> JoinAsync(
        long batchId, Lines lines, [EnumeratorCancellation] CancellationToken cancellation)
    {
        await ExecuteAsync(MatchStatements.Mine, batchId, lines, cancellation);
        await CountAsync(["mine"], cancellation);
        await ExecuteAsync(MatchStatements.Met, batchId, lines, cancellation);
        var own = await OwnAsync(batchId, lines, cancellation);
        await using var command = Command(MatchStatements.Pair, batchId, lines);
        await using var pairs = await command.ExecuteReaderAsync(cancellation);
        var isPair = await pairs.ReadAsync(cancellation);
        List<MetOther> others = [];
        foreach (var (rowId, signature, alike) in own)
        {
            others.Clear();
            while (isPair && pairs.GetInt64(0) <= rowId)
            {
                if (pairs.GetInt64(0) == rowId && !pairs.IsDBNull(4))
                {
                    others.Add(OtherOf(pairs));
                }

                isPair = await pairs.ReadAsync(cancellation);
            }

            yield return new(rowId, signature, others, alike);
        }
    }

    private async Task<List<(long RowId, Signature Signature, int Alike)>> OwnAsync(
        long batchId, Lines lines, CancellationToken cancellation)
    {
        List<(long, Signature, int)> own = [];
        await using var command = Command(MatchStatements.Own, batchId, lines);
        await using var rows = await command.ExecuteReaderAsync(cancellation);
        while (await rows.ReadAsync(cancellation))
        {
            own.Add((rows.GetInt64(0), Signature.FromBytes(rows.GetFieldValue<byte[]>(1)), rows.GetInt32(2)));
        }

        return own;
    }

    private static MetOther OtherOf(DbDataReader pair) => new(
        pair.GetInt64(1) is var gathering and not 0 ? gathering : null,
        pair.GetInt64(2) is var row and not 0 ? row : null,
        Signature.FromBytes(pair.GetFieldValue<byte[]>(4)),
        pair.GetInt32(3) != 0);

    private async Task CountAsync(IReadOnlyList<string> tables, CancellationToken cancellation)
    {
        if (db.Kind.Counting(tables) is not { } counting)
        {
            return;
        }

        await db.Database.OpenConnectionAsync(cancellation);
        try
        {
            await using var command = NewCommand(counting);
            await command.ExecuteNonQueryAsync(cancellation);
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    private async Task ExecuteAsync(string sql, long batchId, Lines lines, CancellationToken cancellation)
    {
        await using var command = Command(sql, batchId, lines);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private DbCommand Command(string sql, long batchId, Lines lines)
    {
        var command = NewCommand(sql);
        Add(command, "@batch", batchId);
        Add(command, "@first", lines.First);
        Add(command, "@last", lines.Last);
        return command;
    }

    private DbCommand NewCommand(string sql)
    {
        var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        command.CommandTimeout = 0;
        command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
        return command;
    }

    private static void Add(DbCommand command, string name, object value)
    {
        var parameter = command.CreateParameter();
        (parameter.ParameterName, parameter.Value) = (name, value);
        command.Parameters.Add(parameter);
    }
}

/// <summary>Lines of a list, the first and the last included.</summary>
public readonly record struct Lines(int First, int Last)
{
    /// <summary>The whole list.</summary>
    public static Lines All => new(0, int.MaxValue);
}

/// <summary>A staged row and all that it meets.</summary>
public sealed record Met(long RowId, Signature Signature, List<MetOther> Others, int AlikeNotCompared);

/// <summary>What a row meets: a gathering of the register, or a row before it.</summary>
/// <param name="IsSameRecord">Whether they meet in something that only one record can have.</param>
public readonly record struct MetOther(long? GatheringId, long? RowId, Signature Signature, bool IsSameRecord);
