using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Accession.Server.Hosting;

/// <summary>A command whose help begins with how it is typed.</summary>
/// <param name="name">What is typed.</param>
/// <param name="description">What it does.</param>
/// <param name="examples">Whole lines to type, the commonest first.</param>
internal sealed class CommandWithExamples(string name, string description, params string[] examples)
    : Command(name, description)
{
    /// <summary>Whole lines to type.</summary>
    public IReadOnlyList<string> Examples => examples;

    /// <summary>Lets the help of all commands begin with their examples.</summary>
    public static void ShowIn(RootCommand accession)
    {
        var help = accession.Options.OfType<HelpOption>().Single();
        help.Action = new ExamplesFirst((HelpAction)help.Action!);
    }

    private sealed class ExamplesFirst(HelpAction usual) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            if (parseResult.CommandResult.Command is CommandWithExamples { Examples: { Count: > 0 } lines })
            {
                var output = parseResult.InvocationConfiguration.Output;
                output.WriteLine(lines.Count == 1 ? "Example:" : "Examples:");
                foreach (var line in lines)
                {
                    output.WriteLine($"  {line}");
                }

                output.WriteLine();
            }

            return usual.Invoke(parseResult);
        }
    }
}
