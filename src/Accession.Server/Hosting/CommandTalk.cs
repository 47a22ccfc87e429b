using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Accession.Core.Outcomes;

namespace Accession.Server.Hosting;

/// <summary>
/// What commands say: data on standard output, everything else on standard error, so that one can be piped without
/// the other. Nothing is coloured, and nothing is ever asked.
/// </summary>
internal static class CommandTalk
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,   // it is read by programs, not put into pages
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>Whether somebody watches.</summary>
    public static bool IsWatched => !Console.IsErrorRedirected;

    /// <summary>Lines for whoever asked.</summary>
    public static Task TellAsync(string lines) => Console.Out.WriteLineAsync(lines);

    /// <summary>One object on one line, for a program.</summary>
    public static Task TellAsync(object told) => Console.Out.WriteLineAsync(JsonSerializer.Serialize(told, Json));

    /// <summary>The same answer for a program or for a person.</summary>
    public static Task AnswerAsync(bool json, Func<object> told, Func<string> words) =>
        json ? TellAsync(told()) : TellAsync(words());

    /// <summary>A remark for a person.</summary>
    public static Task SayAsync(string sentence) => Console.Error.WriteLineAsync(sentence);

    /// <summary>Every reason why not, and how the command ends.</summary>
    public static async Task<int> RefuseAsync(IEnumerable<Refusal> refusals)
    {
        var code = ExitCode.Refused;
        foreach (var refusal in refusals)
        {
            await SayAsync(refusal.Reason);
            code = refusal.Kind == RefusalKind.Invalid ? ExitCode.Wrong : code;
        }

        return code;
    }

    /// <summary>A part of a line that is written over, while somebody watches.</summary>
    public static void Show(string text)
    {
        if (IsWatched)
        {
            Console.Error.Write(text);
        }
    }
}
