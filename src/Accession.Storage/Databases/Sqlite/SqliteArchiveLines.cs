using Accession.Core.Standards.DarwinCore;
using Accession.Storage.Databases.Archives;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using SQLitePCL;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// Steps through the rows with the engine's own calls and copies each text out of its page: the driver would make a
/// string of every cell.
/// </summary>
internal sealed class SqliteArchiveLines : IArchiveLines
{
    public async Task<IArchiveMoment> HoldAsync(AccessionDb db, CancellationToken cancellation)
    {
        var connection = new SqliteConnection(db.Database.GetConnectionString());
        try
        {
            await connection.OpenAsync(cancellation);
            return new Moment(connection, connection.BeginTransaction(deferred: true));
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    // Deferred, because it only ever reads: it takes no lock that a writer could want.
    private sealed class Moment(SqliteConnection connection, SqliteTransaction transaction) : IArchiveMoment
    {
        public async Task<long> CountAsync(ArchiveFile file, CancellationToken cancellation)
        {
            await using var command = connection.CreateCommand();
            command.Transaction = transaction;
            command.CommandText = ArchiveQuery.CountOf(file);
            return (long)(await command.ExecuteScalarAsync(cancellation))!;
        }

        public async Task WriteAsync(
            ArchiveFile file, DatasetCells cells, LineWriter lines, CancellationToken cancellation)
        {
            var query = ArchiveQuery.For(file, cells);
            var engine = connection.Handle!;
            Check(raw.sqlite3_prepare_v2(engine, query.Lines, out var statement));
            using (statement)
            {
                var columns = new SqliteColumns(statement);
                int answer;
                while ((answer = raw.sqlite3_step(statement)) == raw.SQLITE_ROW)
                {
                    WriteCells(columns, query.Cells, lines);
                    await lines.EndLineAsync(cancellation);
                }

                Check(answer);
            }

            await lines.HandOnAsync(cancellation);
        }

        public async ValueTask DisposeAsync()
        {
            await transaction.DisposeAsync();
            await connection.DisposeAsync();
        }

        private static void WriteCells(SqliteColumns columns, ArchiveCell[] cells, LineWriter lines)
        {
            var column = 0;
            foreach (var cell in cells)
            {
                switch (cell.Kind)
                {
                    case CellKind.Constant:
                        lines.Constant(cell.Bytes);
                        break;
                    case CellKind.Text:
                        lines.Text(columns.Text(column++));
                        break;
                    case var _ when columns.IsNull(column):
                        lines.Nothing();
                        column++;
                        break;
                    case CellKind.Whole:
                        lines.Whole(columns.Whole(column++));
                        break;
                    default:
                        lines.Number(columns.Number(column++));
                        break;
                }
            }
        }

        private void Check(int answer) => SqliteException.ThrowExceptionForRC(answer, connection.Handle);
    }
}
