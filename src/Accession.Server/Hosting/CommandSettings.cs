using System.CommandLine;

namespace Accession.Server.Hosting;

/// <summary>The options that every command understands: where the data are, and settings.</summary>
internal static class CommandSettings
{
    /// <summary>Adds them to a command; the answer reads them from what was typed.</summary>
    public static Func<ParseResult, Settings> AddTo(Command command)
    {
        var data = new Option<string?>("--data") { Description = "The folder that holds register, lists and archives" };
        var file = new Option<string?>("--settings")
        {
            Description = "A settings file instead of accession.json there",
        };
        var set = new Option<string[]>("--set")
        {
            Description = "One setting, as Institution:Name=value; may be repeated",
            AllowMultipleArgumentsPerToken = false,
            DefaultValueFactory = _ => [],
        };
        command.Options.Add(data);
        command.Options.Add(file);
        command.Options.Add(set);
        return parsed => new Settings
        {
            DataFolder = parsed.GetValue(data),
            File = parsed.GetValue(file),
            Set = parsed.GetValue(set) ?? [],
        };
    }
}
