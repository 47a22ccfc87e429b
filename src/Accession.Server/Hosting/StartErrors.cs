using System.Data.Common;
using System.Text.RegularExpressions;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>A wrong setting stops the start with one clear sentence, not with a stack trace.</summary>
internal static partial class StartErrors
{
    /// <summary>What is wrong, and where it is set; null for what is no wrong setting.</summary>
    public static string? Sentence(Exception exception) => exception switch
    {
        WrongSettingException wrong => wrong.Message,
        OptionsValidationException invalid => string.Join(" ", invalid.Failures.Select(Spoken)),
        InvalidOperationException unbound when UnknownSetting().Match(unbound.Message) is { Success: true } unknown =>
            $"There is no setting {unknown.Groups["section"]}:{unknown.Groups["name"]}.",
        InvalidOperationException unbound when WrongValue().Match(unbound.Message) is { Success: true } wrong =>
            $"The setting {wrong.Groups["name"]} cannot be \"{wrong.Groups["value"]}\".",
        InvalidDataException file => $"{file.Message.TrimEnd('.')}: {file.GetBaseException().Message.TrimEnd('.')}.",
        UnauthorizedAccessException denied => $"The data folder cannot be used: {denied.Message}",
        IOException io when io.Message.Contains("address already in use", StringComparison.OrdinalIgnoreCase) =>
            "Another program listens on that address already; choose another one with --urls.",
        FormatException format => $"--urls is not an address such as http://127.0.0.1:5080: {Line(format.Message)}.",
        // A database out of reach arrives wrapped in the advice to try again.
        _ when exception.GetBaseException() is IOException or System.Net.Sockets.SocketException
            && Within<DbException>(exception) is { } away => Unopened(away),
        DbException database => Unopened(database),
        _ => null,
    };

    private static string Unopened(DbException database) =>
        $"The register cannot be opened, see Store:Kind and Store:Connection: {Line(database.Message)}.";

    private static T? Within<T>(Exception? exception)
        where T : Exception
    {
        while (exception is not null and not T)
        {
            exception = exception.InnerException;
        }

        return (T?)exception;
    }

    private static string Line(string message) => message.ReplaceLineEndings(" ").TrimEnd('.', ' ');

    // The binder's sentences are for programmers; what they name is for whoever wrote the setting.
    [GeneratedRegex(@"were not found on the instance of (\w+\.)*(?<section>\w+)Options: '(?<name>\w+)'")]
    private static partial Regex UnknownSetting();

    [GeneratedRegex("Failed to convert configuration value '(?<value>.*)' at '(?<name>.*)' to type")]
    private static partial Regex WrongValue();

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
