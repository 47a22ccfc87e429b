using System.Text.Json;

namespace Accession.Evaluation;

/// <summary>A line of a labelled file cannot be read; the message says which.</summary>
internal sealed class UnreadableLineException(string message) : Exception(message);

/// <summary>A labelled text that can say what the program reads from it.</summary>
internal interface ILabelled
{
    /// <summary>The text to read.</summary>
    string? Raw { get; }

    /// <summary>What the file wants, in the form in which it is compared.</summary>
    string Wanted();

    /// <summary>What the program reads, in the same form.</summary>
    string Answer();
}

/// <summary>Files of labelled texts: JSON, one object a line.</summary>
internal static class LabelledLines
{
    /// <summary>Names of members as the files write them.</summary>
    public static JsonSerializerOptions Json { get; } = new(JsonSerializerDefaults.Web);

    /// <summary>Compares each case and lists the wrong ones.</summary>
    /// <exception cref="UnreadableLineException">A line is not such an object.</exception>
    public static Score Score<T>(string file, TextWriter output)
        where T : ILabelled
    {
        var right = 0;
        var total = 0;
        foreach (var (line, text) in File.ReadLines(file).Index())
        {
            if (string.IsNullOrWhiteSpace(text))
            {
                continue;
            }

            var labelled = Parse<T>(file, line + 1, text);
            var wanted = labelled.Wanted();
            var answer = labelled.Answer();
            total++;
            if (answer == wanted)
            {
                right++;
                continue;
            }

            output.WriteLine($"line {line + 1}: {labelled.Raw}");
            output.WriteLine($"    read   {answer}");
            output.WriteLine($"    wanted {wanted}");
        }

        return new(right, total);
    }

    private static T Parse<T>(string file, int line, string text)
        where T : ILabelled
    {
        try
        {
            var labelled = JsonSerializer.Deserialize<T>(text, Json);
            return labelled?.Raw is null
                ? throw new UnreadableLineException($"Line {line} of {file} has no text under \"raw\".")
                : labelled;
        }
        catch (JsonException malformed)
        {
            throw new UnreadableLineException($"Line {line} of {file} is not a labelled case: {malformed.Message}");
        }
    }
}
