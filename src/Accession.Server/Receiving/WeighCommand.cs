using System.CommandLine;
using System.Globalization;
using System.Text.RegularExpressions;
using Accession.Core.Matching;
using Accession.Server.Hosting;

namespace Accession.Server.Receiving;

/// <summary>
/// <c>weigh</c>: says what the decisions of curators make of the weights by which duplicates are found. It changes
/// nothing, and may run while a server runs.
/// </summary>
internal static partial class WeighCommand
{
    public static Command Create()
    {
        var json = new Option<bool>("--json") { Description = "Tell everything as one line of JSON" };
        var command = new CommandWithExamples(
            "weigh", "Estimate anew what each agreement weighs when duplicates are found, and say what would change.",
            "accession weigh --data herbarium")
        {
            json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(
            () => WeighAsync(settings(parsed), parsed.GetValue(json), cancellation)));
        return command;
    }

    private static async Task<int> WeighAsync(Settings settings, bool json, CancellationToken cancellation)
    {
        using var app = AccessionServer.BuildForCommand(settings);
        app.CheckSettings();
        await using var scope = app.Services.CreateAsyncScope();
        await RegistersAtHand.RequireAsync(scope.ServiceProvider, cancellation);
        var shown = new ShownOnTerminal(app.Services.GetRequiredService<TimeProvider>());
        var estimated = await scope.ServiceProvider.GetRequiredService<EstimateWeights>().RunAsync(
            (doing, done) => shown.Tell(
                () => string.Create(CultureInfo.InvariantCulture, $"Comparing {doing}: {done:N0}")),
            cancellation);
        shown.End();
        await CommandTalk.AnswerAsync(json, () => Told(estimated), () => string.Join('\n', Lines(estimated)));
        return ExitCode.Done;
    }

    private static object Told(EstimateWeights.Estimated estimated) => new
    {
        estimated.Same,
        estimated.Others,
        estimated.LeftOut,
        Levels = estimated.Lines.Select(line => new
        {
            line.Field,
            line.Level.Agreement,
            line.Level.Slip,
            line.Present,
            line.Estimated,
            line.Same,
            line.Others,
        }),
        estimated.Changes,
    };

    private static IEnumerable<string> Lines(EstimateWeights.Estimated estimated)
    {
        yield return string.Create(CultureInfo.InvariantCulture,
            $"{estimated.Same:N0} pairs kept as duplicates, {estimated.Others:N0} others that meet in a key.");
        if (estimated.LeftOut > 0)
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"{estimated.LeftOut:N0} more look like one gathering and nobody has decided them: left out.");
        }

        yield return "";
        yield return $"{"field",-10} {"how it agrees",-30} {"now",4} {"then",5} {"same",8} {"others",8}";
        foreach (var line in estimated.Lines)
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"{Words(line.Field),-10} {Words(line.Level),-30} {line.Present,4} {Then(line),5} "
                + $"{line.Same,8} {line.Others,8}");
        }

        yield return "";
        yield return estimated.Changes.Count == 0
            ? "With these weights nothing that was compared would be found to be anything else."
            : "With these weights would be:";
        foreach (var change in estimated.Changes)
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"  {change.Of}: {change.Pairs:N0}, now {Words(change.Now)}, then {Words(change.Then)}");
            foreach (var named in change.Named)
            {
                yield return $"    {named}";
            }
        }

        yield return "Nothing was changed.";
    }

    private static string Then(WeightEstimate.Line line) =>
        line.Estimated?.ToString(CultureInfo.InvariantCulture) ?? "few";

    private static string Words(FieldEvidence level) =>
        level.Slip == Slip.None ? Words(level.Agreement) : Words(level.Slip);

    private static string Words(Enum name) => Hump().Replace(name.ToString(), " $1").Trim().ToLowerInvariant();

    [GeneratedRegex("([A-Z])")]
    private static partial Regex Hump();
}
