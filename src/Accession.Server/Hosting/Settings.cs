namespace Accession.Server.Hosting;

/// <summary>
/// Where settings come from, the later the stronger: the file accession.json in the data folder (or the one named by
/// --settings), environment variables that begin with ACCESSION_, the command line.
/// </summary>
public sealed record Settings
{
    // What the log need not tell: that a fresh database has no table yet, that keys lie in the register, and, at
    // length, why the start stops; whatever fails is thrown as well, and told once.
    private static readonly KeyValuePair<string, string?>[] QuietLog =
    [
        new("Logging:LogLevel:Default", "Information"),
        new("Logging:LogLevel:Microsoft", "Warning"),
        new("Logging:LogLevel:Microsoft.EntityFrameworkCore.Database.Command", "None"),
        new("Logging:LogLevel:Microsoft.EntityFrameworkCore.Database.Connection", "None"),
        new("Logging:LogLevel:Microsoft.Extensions.Hosting.Internal.Host", "Critical"),
        new("Logging:LogLevel:Microsoft.AspNetCore.DataProtection.KeyManagement.XmlKeyManager", "Error"),
        new("Logging:LogLevel:Hangfire", "Warning"),
        // A program that asks for what its token does not open hears it; the log need not.
        new("Logging:LogLevel:Accession.Server.Hosting.TokenHandler", "Warning"),
    ];

    /// <summary>The folder that holds everything: register, lists, archives, keys.</summary>
    public string? DataFolder { get; init; }

    /// <summary>A settings file instead of accession.json in the data folder.</summary>
    public string? File { get; init; }

    /// <summary>Single settings from the command line, such as <c>Receiving:MaximumFileMegabytes=50</c>.</summary>
    public IReadOnlyList<string> Set { get; init; } = [];

    /// <summary>Addresses to listen on, as <c>http://127.0.0.1:5080</c>.</summary>
    public string? Urls { get; init; }

    /// <summary>Adds all of it to a configuration.</summary>
    /// <exception cref="WrongSettingException">
    /// A setting is not written as NAME=VALUE, or the file is not there.
    /// </exception>
    public void ApplyTo(IConfigurationManager configuration)
    {
        configuration.Sources.Clear();
        configuration.AddInMemoryCollection(QuietLog);
        var folder = Path.GetFullPath(DataFolder
            ?? Environment.GetEnvironmentVariable("ACCESSION_Store__DataFolder")
            ?? StoreOptions.DefaultDataFolder);
        var file = Path.GetFullPath(File ?? Path.Combine(folder, "accession.json"));
        if (File is not null && !System.IO.File.Exists(file))
        {
            throw new WrongSettingException($"The settings file {file} is not there.");
        }

        configuration.AddJsonFile(file, optional: true, reloadOnChange: false);
        configuration.AddEnvironmentVariables("ACCESSION_");
        configuration.AddInMemoryCollection(Set.Select(Split));
        configuration.AddInMemoryCollection(
        [
            new("Store:DataFolder", folder),
            new("urls", Urls ?? configuration["Server:Urls"] ?? "http://127.0.0.1:5080"),
        ]);
    }

    private static KeyValuePair<string, string?> Split(string setting)
    {
        var at = setting.IndexOf('=', StringComparison.Ordinal);
        return at > 0 && setting[..at].Contains(':', StringComparison.Ordinal)
            ? new(setting[..at].Trim(), setting[(at + 1)..].Trim())
            : throw new WrongSettingException($"\"--set {setting}\" is not written as Section:Name=value.");
    }
}

/// <summary>A setting is wrong; the message is the one sentence that the start ends with.</summary>
public sealed class WrongSettingException(string message) : Exception(message);
