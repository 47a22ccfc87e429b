using System.Security.Cryptography;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Ground;

/// <summary>Everything that a register and its data folder hold, to be held beside what they hold later.</summary>
internal static class RegisterPicture
{
    /// <summary>Every row of every table as text, and every file with its hash.</summary>
    public static async Task<IReadOnlyList<string>> TakeAsync(TestStore store)
    {
        List<string> picture = [.. Files(store.Folder)];
        await using var db = store.Open();
        foreach (var table in db.Model.GetRelationalModel().Tables.OrderBy(table => table.Name, StringComparer.Ordinal))
        {
            picture.AddRange(await RowsAsync(db, table.Name));
        }

        return picture;
    }

    /// <summary>Every file of a folder with its hash, but what the database keeps beside its file while it is open.</summary>
    public static IEnumerable<string> Files(string folder) =>
        Directory.EnumerateFileSystemEntries(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
            .Where(path => !path.EndsWith("-wal", StringComparison.Ordinal) && !path.EndsWith("-shm", StringComparison.Ordinal))
            // A server that runs beside moves what was written before into its file when it likes; the rows say the same.
            .Select(path => File.Exists(path) && Path.GetFileName(path) != "register.db"
                ? $"{path} {Convert.ToHexStringLower(SHA256.HashData(Read(path)))}"
                : path);

    private static byte[] Read(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using var bytes = new MemoryStream();
        file.CopyTo(bytes);
        return bytes.ToArray();
    }

    private static async Task<List<string>> RowsAsync(AccessionDb db, string table)
    {
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"SELECT * FROM \"{table}\"";
        await using var reader = await command.ExecuteReaderAsync();
        List<string> rows = [];
        while (await reader.ReadAsync())
        {
            var cells = new object[reader.FieldCount];
            reader.GetValues(cells);
            rows.Add($"{table}: {string.Join('|', cells.Select(cell => cell is byte[] bytes ? Convert.ToHexString(bytes) : cell))}");
        }

        rows.Sort(StringComparer.Ordinal);
        return rows;
    }
}
