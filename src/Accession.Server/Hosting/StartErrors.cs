using System.CommandLine;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>A wrong setting stops the start with one clear sentence, not with a stack trace.</summary>
internal static class StartErrors
{
    private const int WrongSetting = 2;

    /// <summary>The command line leaves errors to us.</summary>
    public static InvocationConfiguration AreOurs { get; } = new() { EnableDefaultExceptionHandler = false };

    public static async Task<int> InOneSentenceAsync(Func<Task<int>> run)
    {
        try
        {
            return await run();
        }
        catch (Exception stopped) when (Sentence(stopped) is { } sentence)
        {
            await Console.Error.WriteLineAsync($"Accession did not start. {sentence}");
            return WrongSetting;
        }
    }

    private static string? Sentence(Exception exception) => exception switch
    {
        WrongSettingException wrong => wrong.Message,
        OptionsValidationException invalid => string.Join(" ", invalid.Failures.Select(Spoken)),
        InvalidOperationException unbound when unbound.Source?.StartsWith("Microsoft.Extensions.Configuration", StringComparison.Ordinal) == true =>
            $"A setting cannot be read: {unbound.Message}",
        InvalidDataException file => $"The settings file cannot be read: {file.InnerException?.Message ?? file.Message}",
        UnauthorizedAccessException denied => $"The data folder cannot be used: {denied.Message}",
        IOException io when io.Message.Contains("address already in use", StringComparison.OrdinalIgnoreCase) =>
            "Another program listens on that address already; choose another one with --urls.",
        Npgsql.NpgsqlException database => $"The PostgreSQL database cannot be reached: {database.Message}",
        FormatException format => $"A setting cannot be read: {format.Message}",
        _ => null,
    };

    // "DataAnnotation validation failed for 'ReceivingOptions' members: 'X' with the error: 'Y'." is for programmers.
    private static string Spoken(string failure)
    {
        var member = failure.IndexOf("members: '", StringComparison.Ordinal);
        var error = failure.IndexOf("error: '", StringComparison.Ordinal);
        if (member < 0 || error < 0)
        {
            return failure;
        }

        var options = failure[(failure.IndexOf('\'', StringComparison.Ordinal) + 1)..];
        var section = options[..options.IndexOf("Options", StringComparison.Ordinal)];
        var name = failure[(member + 10)..failure.IndexOf('\'', member + 10)];
        return $"The setting {section}:{name}: {failure[(error + 8)..].TrimEnd('.', '\'')}.";
    }
}
