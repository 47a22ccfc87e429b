using Accession.Core.Matching;
using Accession.Storage.Matching;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>Matching by arrays: a slice is one statement for each table, whatever its length.</summary>
internal sealed class PostgreSqlMatchStore : IMatchStore
{
    private const string StageKeys = """
        INSERT INTO row_key (batch_id, "key", row_id, line, day, detail, is_identity)
        SELECT @batch, * FROM unnest(@keys, @ids, @lines, @days, @details, @identities)
        """;

    private const string KeepKeys = """
        INSERT INTO gathering_key ("key", gathering_id, day, detail, is_identity)
        SELECT * FROM unnest(@keys, @ids, @days, @details, @identities)
        """;

    // The closest member of a row has the lowest key: stored in the order in which they came.
    private const string StoreMembers = """
        INSERT INTO found_member (row_id, gathering_id, other_row_id, evidence)
        SELECT row_id, gathering_id, other_row_id, evidence
        FROM unnest(@rows, @gatherings, @others, @evidence) WITH ORDINALITY
            AS found (row_id, gathering_id, other_row_id, evidence, place)
        ORDER BY place
        """;

    private const string StoreFindings = """
        UPDATE batch_row SET finding = found.kind, alike_not_compared = found.alike
        FROM unnest(@rows, @kinds, @alike) AS found (row_id, kind, alike) WHERE batch_row.id = found.row_id
        """;

    public async Task StageAsync(
        AccessionDb db, IReadOnlyList<MatchTable.Entry> rows, IReadOnlyList<(long RowId, long GatheringId)> records,
        CancellationToken cancellation)
    {
        await using (var signatures = Command(
            db, "INSERT INTO row_signature (row_id, signature) SELECT * FROM unnest(@ids, @signatures)"))
        {
            Add(signatures, "ids", rows, row => row.Id);
            Add(signatures, "signatures", rows, row => row.Signature.ToBytes());
            await signatures.ExecuteNonQueryAsync(cancellation);
        }

        if (records.Count > 0)
        {
            await using var kept = Command(
                db, "INSERT INTO row_record (row_id, gathering_id) SELECT * FROM unnest(@rows, @gatherings)");
            Add(kept, "rows", records, record => record.RowId);
            Add(kept, "gatherings", records, record => record.GatheringId);
            await kept.ExecuteNonQueryAsync(cancellation);
        }
    }

    public async Task StageKeysAsync(
        AccessionDb db, long batchId, IReadOnlyList<MatchTable.StagedKey> keys, CancellationToken cancellation)
    {
        await using var command = KeysCommand(db, StageKeys, [.. keys.Select(staged => (staged.RowId, staged.Key))]);
        command.Parameters.AddWithValue("batch", batchId);
        Add(command, "lines", keys, staged => staged.Line);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    public async Task KeepAsync(
        AccessionDb db, IReadOnlyList<MatchTable.Entry> gatherings, CancellationToken cancellation)
    {
        await using (var signatures = Command(
            db,
            """
            DELETE FROM gathering_key WHERE gathering_id = ANY (@ids);
            INSERT INTO gathering_signature (gathering_id, signature) SELECT * FROM unnest(@ids, @signatures)
                ON CONFLICT (gathering_id) DO UPDATE SET signature = excluded.signature;
            UPDATE gathering SET signature_version = @version WHERE id = ANY (@ids)
            """))
        {
            Add(signatures, "ids", gatherings, gathering => gathering.Id);
            Add(signatures, "signatures", gatherings, gathering => gathering.Signature.ToBytes());
            signatures.Parameters.AddWithValue("version", (int)Signature.CurrentVersion);
            await signatures.ExecuteNonQueryAsync(cancellation);
        }

        await using var keys = KeysCommand(
            db, KeepKeys, [.. gatherings.SelectMany(gathering => gathering.Keys.Select(key => (gathering.Id, key)))]);
        await keys.ExecuteNonQueryAsync(cancellation);
    }

    public async Task FindAsync(AccessionDb db, IReadOnlyList<FoundRow> rows, CancellationToken cancellation)
    {
        await using (var findings = Command(
            db, $"DELETE FROM found_member WHERE row_id = ANY (@rows); {StoreFindings}"))
        {
            Add(findings, "rows", rows, row => row.RowId);
            Add(findings, "kinds", rows, row => row.Kind.ToString());
            Add(findings, "alike", rows, row => row.AlikeNotCompared);
            await findings.ExecuteNonQueryAsync(cancellation);
        }

        var members = rows.SelectMany(row => row.Members).ToList();
        if (members.Count > 0)
        {
            await using var stored = Command(db, StoreMembers);
            Add(stored, "rows", members, member => member.RowId);
            Add(stored, "gatherings", members, member => member.GatheringId);
            Add(stored, "others", members, member => member.OtherRowId);
            Add(stored, "evidence", members, member => member.Evidence);
            await stored.ExecuteNonQueryAsync(cancellation);
        }
    }

    private static NpgsqlCommand KeysCommand(AccessionDb db, string sql, IReadOnlyList<(long Id, MatchKey Key)> keys)
    {
        var command = Command(db, sql);
        Add(command, "keys", keys, one => one.Key.Value);
        Add(command, "ids", keys, one => one.Id);
        Add(command, "days", keys, one => one.Key.Day);
        Add(command, "details", keys, one => one.Key.Detail);
        Add(command, "identities", keys, one => one.Key.IsIdentity);
        return command;
    }

    private static void Add<TItem, TValue>(
        NpgsqlCommand command, string name, IReadOnlyList<TItem> items, Func<TItem, TValue> value) =>
        command.Parameters.AddWithValue(name, items.Select(value).ToArray());

    private static NpgsqlCommand Command(AccessionDb db, string sql) =>
        new(sql, (NpgsqlConnection)db.Database.GetDbConnection(),
            (NpgsqlTransaction?)db.Database.CurrentTransaction?.GetDbTransaction());
}
