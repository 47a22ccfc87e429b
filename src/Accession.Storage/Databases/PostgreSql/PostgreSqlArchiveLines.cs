using System.Data;
using Accession.Core.Standards.DarwinCore;
using Accession.Storage.Databases.Archives;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Accession.Storage.Databases.PostgreSql;

/// <summary>Copies the rows out in the server's binary form and moves the bytes of each text on as they are.</summary>
internal sealed class PostgreSqlArchiveLines(PostgreSqlPublicRole? role) : IArchiveLines
{
    public async Task<IArchiveMoment> HoldAsync(AccessionDb db, CancellationToken cancellation)
    {
        // A clone keeps the password, which the connection string of an open connection does not.
        var connection = (NpgsqlConnection)((ICloneable)db.Database.GetDbConnection()).Clone();
        try
        {
            await connection.OpenAsync(cancellation);
            var transaction = await connection.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation);
            if (role is not null)
            {
                await role.EnterAsync(connection, cancellation);
            }

            return new Moment(connection, transaction);
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    private sealed class Moment(NpgsqlConnection connection, NpgsqlTransaction transaction) : IArchiveMoment
    {
        public async Task<long> CountAsync(ArchiveFile file, CancellationToken cancellation)
        {
            await using var command = new NpgsqlCommand(ArchiveQuery.CountOf(file), connection, transaction);
            return (long)(await command.ExecuteScalarAsync(cancellation))!;
        }

        public async Task WriteAsync(
            ArchiveFile file, DatasetCells cells, LineWriter lines, CancellationToken cancellation)
        {
            var query = ArchiveQuery.For(file, cells);
            await using var stream = await connection.BeginRawBinaryCopyAsync(
                $"COPY ({query.Lines}) TO STDOUT (FORMAT binary)", cancellation);
            var rows = new BinaryRows(stream);
            await rows.BeginAsync(cancellation);
            while (await rows.NextAsync(cancellation))
            {
                foreach (var cell in query.Cells)
                {
                    if (cell.Kind == CellKind.Constant)
                    {
                        lines.Constant(cell.Bytes);
                    }
                    else
                    {
                        rows.WriteField(cell.Kind, lines);
                    }
                }

                await lines.EndLineAsync(cancellation);
            }

            await lines.HandOnAsync(cancellation);
        }

        public async ValueTask DisposeAsync()
        {
            await transaction.DisposeAsync();
            await connection.DisposeAsync();
        }
    }
}
