using System.ComponentModel.DataAnnotations;

namespace Accession.Server.Hosting;

/// <summary>Where the register is kept, read from the section <c>Store</c>.</summary>
public sealed class StoreOptions
{
    /// <summary>Where the data folder is when nobody names one: in the home folder, never in the source tree.</summary>
    public static string DefaultDataFolder { get; } = Path.Combine(
        Environment.GetFolderPath(
            Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create),
        "accession");

    /// <summary>The folder that holds everything.</summary>
    [Required]
    public string DataFolder { get; set; } = DefaultDataFolder;

    /// <summary>Which database: <c>Sqlite</c> (the default, a file in the data folder) or <c>PostgreSql</c>.</summary>
    public StoreKind Kind { get; set; } = StoreKind.Sqlite;

    /// <summary>How to reach the PostgreSQL database, as <c>Host=…;Database=…;Username=…;Password=…</c>.</summary>
    public string? Connection { get; set; }
}

/// <summary>Which database keeps the register.</summary>
public enum StoreKind
{
    /// <summary>One file in the data folder.</summary>
    Sqlite,

    /// <summary>A PostgreSQL server, for larger sites.</summary>
    PostgreSql,
}
