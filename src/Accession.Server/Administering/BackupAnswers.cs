namespace Accession.Server.Administering;

/// <summary>How the commands of a backup end: with one sentence and a code, never with a stack trace.</summary>
internal static class BackupAnswers
{
    public const int Done = 0;
    public const int Refused = 1;

    /// <summary>The backup was made, but the data folder did not have every list.</summary>
    public const int Incomplete = 3;

    /// <summary>As a shell counts a program that was interrupted.</summary>
    public const int Interrupted = 130;

    public static async Task<int> InOneSentenceAsync(Func<Task<int>> run)
    {
        try
        {
            return await run();
        }
        catch (BackupRefusedException refused)
        {
            return await SayAsync(refused.Message, Refused);
        }
        catch (OperationCanceledException)
        {
            return await SayAsync("Stopped. Nothing was kept of it.", Interrupted);
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            return await SayAsync($"It could not be done, and nothing was kept of it: {failed.Message}", Refused);
        }
    }

    private static async Task<int> SayAsync(string sentence, int code)
    {
        await Console.Error.WriteLineAsync(sentence);
        return code;
    }
}
