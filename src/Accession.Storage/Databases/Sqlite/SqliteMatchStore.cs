using Accession.Core.Matching;
using Accession.Storage.Matching;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>Matching by prepared statements, one run for each row.</summary>
internal sealed class SqliteMatchStore : IMatchStore
{
    public Task StageAsync(
        AccessionDb db, IReadOnlyList<MatchTable.Entry> rows, IReadOnlyList<(long RowId, long GatheringId)> records,
        CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        using var signature = new SqliteStatement(db, "INSERT INTO row_signature (row_id, signature) VALUES (?, ?)");
        using var record = new SqliteStatement(db, "INSERT INTO row_record (row_id, gathering_id) VALUES (?, ?)");
        foreach (var row in rows)
        {
            signature.Bind(1, row.Id).Bind(2, row.Signature.ToBytes()).Run();
        }

        foreach (var (rowId, gatheringId) in records)
        {
            record.Bind(1, rowId).Bind(2, gatheringId).Run();
        }

        return Task.CompletedTask;
    }

    public Task StageKeysAsync(
        AccessionDb db, long batchId, IReadOnlyList<MatchTable.StagedKey> keys, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        using var insert = new SqliteStatement(db,
            """
            INSERT INTO row_key (batch_id, "key", row_id, line, day, detail, is_identity) VALUES (?, ?, ?, ?, ?, ?, ?)
            """);
        insert.Bind(1, batchId);
        foreach (var (rowId, line, key) in keys)
        {
            insert.Bind(2, key.Value).Bind(3, rowId).Bind(4, line).Bind(5, key.Day).Bind(6, key.Detail)
                .Bind(7, key.IsIdentity ? 1 : 0).Run();
        }

        return Task.CompletedTask;
    }

    public Task KeepAsync(
        AccessionDb db, IReadOnlyList<MatchTable.Entry> gatherings, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        using var forget = new SqliteStatement(db, "DELETE FROM gathering_key WHERE gathering_id = ?");
        using var signature = new SqliteStatement(
            db, "INSERT OR REPLACE INTO gathering_signature (gathering_id, signature) VALUES (?, ?)");
        using var key = new SqliteStatement(db,
            """
            INSERT INTO gathering_key ("key", gathering_id, day, detail, is_identity) VALUES (?, ?, ?, ?, ?)
            """);
        using var signed = new SqliteStatement(db, "UPDATE gathering SET signature_version = ? WHERE id = ?");
        signed.Bind(1, Signature.CurrentVersion);
        foreach (var gathering in gatherings)
        {
            forget.Bind(1, gathering.Id).Run();
            signature.Bind(1, gathering.Id).Bind(2, gathering.Signature.ToBytes()).Run();
            key.Bind(2, gathering.Id);
            foreach (var one in gathering.Keys)
            {
                key.Bind(1, one.Value).Bind(3, one.Day).Bind(4, one.Detail).Bind(5, one.IsIdentity ? 1 : 0).Run();
            }

            signed.Bind(2, gathering.Id).Run();
        }

        return Task.CompletedTask;
    }

    public Task FindAsync(AccessionDb db, IReadOnlyList<FoundRow> rows, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        using var forget = new SqliteStatement(db, "DELETE FROM found_member WHERE row_id = ?");
        using var member = new SqliteStatement(db,
            "INSERT INTO found_member (row_id, gathering_id, other_row_id, evidence) VALUES (?, ?, ?, ?)");
        using var row = new SqliteStatement(
            db, "UPDATE batch_row SET finding = ?, alike_not_compared = ? WHERE id = ?");
        foreach (var found in rows)
        {
            forget.Bind(1, found.RowId).Run();
            foreach (var one in found.Members)
            {
                member.Bind(1, one.RowId).Bind(2, one.GatheringId).Bind(3, one.OtherRowId).Bind(4, one.Evidence).Run();
            }

            row.Bind(1, found.Kind.ToString()).Bind(2, found.AlikeNotCompared).Bind(3, found.RowId).Run();
        }

        return Task.CompletedTask;
    }
}
