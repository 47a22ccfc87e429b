using System.CommandLine;
using System.CommandLine.Invocation;
using System.Data.Common;

namespace Accession.Server.Hosting;

/// <summary>
/// How commands end: with one sentence and a code of <see cref="ExitCode"/>, never with a stack trace.
/// </summary>
internal static class CommandAnswers
{
    private const string NoSpace = "53100";   // as PostgreSQL counts its errors; SQLite says it in words only

    /// <summary>Runs what was typed.</summary>
    public static async Task<int> RunAsync(RootCommand accession, string[] typed)
    {
        try
        {
            var parsed = accession.Parse(typed);
            return parsed.Action is ParseErrorAction wrong
                ? await CorrectAsync(parsed, wrong)
                : await parsed.InvokeAsync(new() { EnableDefaultExceptionHandler = false });
        }
        catch (Exception stopped) when (StartErrors.Sentence(stopped) is { } sentence)
        {
            await CommandTalk.SayAsync($"Accession did not start. {sentence}");
            return ExitCode.Wrong;
        }
        catch (OperationCanceledException)
        {
            return await StopAsync();
        }
        catch (Exception defect) when (defect is not OutOfMemoryException)
        {
            return await ConfessAsync(defect);
        }
    }

    /// <summary>Carries out a command; whatever can be foreseen to go wrong ends with a sentence.</summary>
    public static async Task<int> InOneSentenceAsync(Func<Task<int>> run)
    {
        try
        {
            return await run();
        }
        catch (CommandRefusedException refused)
        {
            await CommandTalk.SayAsync(refused.Message);
            return ExitCode.Refused;
        }
        catch (OperationCanceledException)
        {
            return await StopAsync();
        }
        catch (DbException full) when (full.SqlState == NoSpace || full.Message.Contains("disk is full", Ordinal))
        {
            return await FailAsync("the disk is full.");
        }
        catch (Exception failed) when (IsOfFiles(failed))
        {
            return await FailAsync(failed.Message);
        }
    }

    private const StringComparison Ordinal = StringComparison.Ordinal;

    // What is wrong, what was probably meant, and where to read on; on standard error, for there are no data.
    private static async Task<int> CorrectAsync(ParseResult parsed, ParseErrorAction wrong)
    {
        wrong.ShowHelp = false;
        await parsed.InvokeAsync(new() { Output = Console.Error });
        var path = string.Concat(parsed.CommandResult.Command.Parents.OfType<Command>()
            .Append(parsed.CommandResult.Command)
            .Where(command => command is not RootCommand).Select(command => $" {command.Name}"));
        await CommandTalk.SayAsync($"accession{path} --help says what can be typed.");
        return ExitCode.Wrong;
    }

    // A settings file that is no JSON is a wrong setting.
    private static bool IsOfFiles(Exception failed) => failed is IOException or UnauthorizedAccessException
        || (failed is InvalidDataException && !failed.Message.StartsWith("Failed to load configuration", Ordinal));

    private static async Task<int> FailAsync(string why)
    {
        await CommandTalk.SayAsync($"It could not be done, and nothing was kept of it: {why}");
        return ExitCode.Refused;
    }

    private static async Task<int> StopAsync()
    {
        await CommandTalk.SayAsync("Stopped. Nothing was kept of it.");
        return ExitCode.Interrupted;
    }

    // The trace is for whoever mends the program, in a file that only this user may read.
    private static async Task<int> ConfessAsync(Exception defect)
    {
        var reference = Guid.NewGuid().ToString("N")[..8];
        var log = Path.Combine(Path.GetTempPath(), $"accession-{reference}.log");
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        await using (var file = new StreamWriter(log, options))
        {
            await file.WriteLineAsync(defect.ToString());
        }

        await CommandTalk.SayAsync(
            $"This is a defect of the program, not of what you typed. Its reference is {reference}; send {log} to "
            + "whoever looks after the program.");
        return ExitCode.Defect;
    }
}
