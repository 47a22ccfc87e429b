using System.ComponentModel.DataAnnotations;

namespace Accession.Server.Hosting;

/// <summary>Where the register is kept, read from the section <c>Store</c>.</summary>
public sealed class StoreOptions
{
    /// <summary>
    /// Where the data folder is when nobody names one: in the home folder, never in the source tree. It is asked for
    /// only then, because a user whom a service runs as may have no home.
    /// </summary>
    public static string DefaultDataFolder
    {
        get
        {
            var home = Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
            return home.Length > 0
                ? Path.Combine(home, "accession")
                : throw new WrongSettingException("There is no home folder for the data; name one with --data.");
        }
    }

    /// <summary>The folder that holds everything; whoever starts the program always says which.</summary>
    [Required]
    public string DataFolder { get; set; } = "";

    /// <summary>Which database: <c>Sqlite</c> (the default, a file in the data folder) or <c>PostgreSql</c>.</summary>
    public StoreKind Kind { get; set; } = StoreKind.Sqlite;

    /// <summary>How to reach the PostgreSQL database, as <c>Host=…;Database=…;Username=…;Password=…</c>.</summary>
    public string? Connection { get; set; }

    /// <summary>
    /// A role of PostgreSQL under which is read what becomes public, so that the database itself refuses exact places;
    /// without it the role that signs in reads everything.
    /// </summary>
    public string? PublicRole { get; set; }
}

/// <summary>Which database keeps the register.</summary>
public enum StoreKind
{
    /// <summary>One file in the data folder.</summary>
    Sqlite,

    /// <summary>A PostgreSQL server, for larger sites.</summary>
    PostgreSql,
}
