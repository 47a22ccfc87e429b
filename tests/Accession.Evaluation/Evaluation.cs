using System.Text.Json;

namespace Accession.Evaluation;

/// <summary>
/// Accuracy figures for files of labelled texts. It reads with the program's own rules and has none of its own: each
/// verb compares an answer of Core with what the file wants.
/// </summary>
internal static class Evaluation
{
    /// <summary>Exit code when the figures were worked out, whatever they are.</summary>
    public const int Done = 0;

    /// <summary>Exit code of wrong use or of a file that cannot be read.</summary>
    public const int WrongUse = 2;

    /// <summary>Exit code of a verb that does not answer yet.</summary>
    public const int NotYet = 3;

    private const string Usage = """
        Usage: Accession.Evaluation VERB FILE... [--json]

          collectors FILE                       names of collectors; JSON, one object a line
          numbers FILE                          collectors' numbers; JSON, one object a line
          names FILE                            scientific names
          pairs RECORDS PAIRS                   pairs of records, same gathering or not
          groups RECORDS GROUPS [--unsure FILE] groups of records of one gathering
          batch HOLDINGS BATCH EXPECTED         findings for the rows of a batch
          quality FILE                          data-quality tests
          archive PATH                          an archive to read
          trace FILE                            a temperature trace

        With --json the last line is one object with the figures.
        """;

    /// <summary>The verbs, and how many files each wants.</summary>
    private static readonly Dictionary<string, int> FilesOf = new(StringComparer.Ordinal)
    {
        ["collectors"] = 1,
        ["numbers"] = 1,
        ["names"] = 1,
        ["pairs"] = 2,
        ["groups"] = 2,
        ["batch"] = 3,
        ["quality"] = 1,
        ["archive"] = 1,
        ["trace"] = 1,
    };

    /// <summary>Runs one verb.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="output">Where the cases and figures go.</param>
    /// <param name="errors">Where complaints go.</param>
    /// <returns>The exit code.</returns>
    public static int Run(string[] arguments, TextWriter output, TextWriter errors)
    {
        if (!TryParse(arguments, out var verb, out var files, out var unsure, out var isJson))
        {
            errors.WriteLine(Usage);
            return WrongUse;
        }

        var missing = files.Concat(unsure is null ? [] : [unsure])
            .FirstOrDefault(f => !File.Exists(f) && !Directory.Exists(f));
        if (missing is not null)
        {
            errors.WriteLine($"There is no file {missing}.");
            return WrongUse;
        }

        try
        {
            object? figures = verb switch
            {
                "collectors" => LabelledLines.Score<LabelledCollectors>(files[0], output),
                "numbers" => LabelledLines.Score<LabelledNumber>(files[0], output),
                "pairs" => LabelledPairs.Score(files[0], files[1], output),
                "groups" => LabelledGroups.Score(files[0], files[1], unsure, output),
                "batch" => LabelledBatch.Score(files[0], files[1], files[2], output),
                _ => null,
            };
            if (figures is null)
            {
                errors.WriteLine($"The verb {verb} has no answer: not yet. "
                    + "Collectors, numbers, pairs, groups and batch have.");
                return NotYet;
            }

            output.WriteLine(figures.ToString());
            if (isJson)
            {
                output.WriteLine(JsonSerializer.Serialize(figures, figures.GetType(), LabelledLines.Json));
            }

            return Done;
        }
        catch (UnreadableLineException unreadable)
        {
            errors.WriteLine(unreadable.Message);
            return WrongUse;
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            errors.WriteLine($"{files[0]} cannot be read: {unreadable.Message}");
            return WrongUse;
        }
    }

    private static bool TryParse(
        string[] arguments, out string verb, out List<string> files, out string? unsure, out bool isJson)
    {
        files = [];
        unsure = null;
        isJson = false;
        verb = arguments.Length > 0 ? arguments[0] : "";
        if (!FilesOf.TryGetValue(verb, out var wanted))
        {
            return false;
        }

        for (var i = 1; i < arguments.Length; i++)
        {
            if (arguments[i] == "--json")
            {
                isJson = true;
            }
            else if (arguments[i] == "--unsure" && verb == "groups" && i + 1 < arguments.Length)
            {
                unsure = arguments[++i];
            }
            else if (arguments[i].StartsWith("--", StringComparison.Ordinal))
            {
                return false;
            }
            else
            {
                files.Add(arguments[i]);
            }
        }

        return files.Count == wanted;
    }
}
