using System.Runtime.InteropServices;
using SQLitePCL;

namespace Accession.Storage.Databases.Sqlite;

/// <summary>
/// The columns of the row that a statement stands on, by the engine's own functions. The driver's wrappers guard the
/// statement and announce themselves to the garbage collector at every call: nothing beside a query, but a sixth of the
/// reader's time where forty cells of a million rows are asked for. The statement must stay open meanwhile.
/// </summary>
internal readonly unsafe partial struct SqliteColumns(sqlite3_stmt statement)
{
    private const string Engine = "e_sqlite3";   // the library that the driver has loaded

    private readonly nint _statement = statement.DangerousGetHandle();

    public bool IsNull(int column) => ColumnType(_statement, column) == raw.SQLITE_NULL;

    public long Whole(int column) => ColumnInt64(_statement, column);

    public double Number(int column) => ColumnDouble(_statement, column);

    /// <summary>The bytes of a text as the engine holds them; they are there until the next step.</summary>
    public ReadOnlySpan<byte> Text(int column)
    {
        var bytes = ColumnBlob(_statement, column);   // first: it decides the form that the length is of
        return new(bytes, ColumnBytes(_statement, column));
    }

    // None of them waits for anything: the row was read when the statement came to it.
    [LibraryImport(Engine, EntryPoint = "sqlite3_column_type"), SuppressGCTransition]
    private static partial int ColumnType(nint statement, int column);

    [LibraryImport(Engine, EntryPoint = "sqlite3_column_int64"), SuppressGCTransition]
    private static partial long ColumnInt64(nint statement, int column);

    [LibraryImport(Engine, EntryPoint = "sqlite3_column_double"), SuppressGCTransition]
    private static partial double ColumnDouble(nint statement, int column);

    [LibraryImport(Engine, EntryPoint = "sqlite3_column_blob"), SuppressGCTransition]
    private static partial void* ColumnBlob(nint statement, int column);

    [LibraryImport(Engine, EntryPoint = "sqlite3_column_bytes"), SuppressGCTransition]
    private static partial int ColumnBytes(nint statement, int column);
}
