using Accession.Server.Hosting;
using Accession.Storage.Databases;

namespace Accession.Server.Administering;

/// <summary>What a backup says of itself: of which moment it is, by which program, and what it consists of.</summary>
/// <param name="Format">The format of the file; a higher one is of a newer program.</param>
/// <param name="Program">The version of the program that made it.</param>
/// <param name="Database">What people call the database it was made of.</param>
/// <param name="Migration">The last migration of the register.</param>
/// <param name="TakenAt">Its moment, in UTC: whatever was committed before is in it.</param>
/// <param name="Tables">The tables of the register and how many rows each had.</param>
/// <param name="Parts">Every other file in it.</param>
/// <param name="Missing">What the register names and the data folder did not have any more.</param>
internal sealed record BackupManifest(
    int Format,
    string Program,
    string Database,
    string Migration,
    DateTime TakenAt,
    IReadOnlyList<RegisterTable> Tables,
    IReadOnlyList<BackupPart> Parts,
    IReadOnlyList<string> Missing)
{
    public const int CurrentFormat = 1;

    /// <summary>The name of the manifest in the file.</summary>
    public const string Name = "manifest.json";

    /// <summary>The first part of every backup, by which one is known however little of it is left.</summary>
    public const string Mark = "accession-backup";

    /// <summary>Where the lists lie in it.</summary>
    public const string Lists = "lists/";

    /// <summary>Where the papers of batches lie in it.</summary>
    public const string Papers = "papers/";

    public long Bytes => Parts.Sum(part => part.Bytes);

    public long RowsOf(string table) => Tables.FirstOrDefault(t => t.Name == table)?.Rows ?? 0;

    public int ReceivedLists => Parts.Count(part => part.Name.StartsWith(Lists, StringComparison.Ordinal));
}

/// <summary>A file in a backup.</summary>
/// <param name="Name">Its name, with slashes.</param>
/// <param name="Bytes">How many it has, uncompressed.</param>
/// <param name="Sha256">Their SHA-256, in hexadecimal.</param>
internal sealed record BackupPart(string Name, long Bytes, string Sha256);

/// <summary>A backup cannot be made or put back; the message is the one sentence that says why.</summary>
internal sealed class BackupRefusedException(string sentence, Exception? cause = null)
    : CommandRefusedException(sentence, cause);
