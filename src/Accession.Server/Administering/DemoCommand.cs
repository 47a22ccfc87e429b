using System.CommandLine;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary><c>demo</c>: fills an empty register of its own with the invented herbarium, without serving.</summary>
internal static class DemoCommand
{
    public static Command Create()
    {
        var dryRun = new Option<bool>("--dry-run") { Description = "Say what would be filled, without doing it" };
        var json = new Option<bool>("--json") { Description = "Tell the result as JSON" };
        var command = new CommandWithExamples(
            "demo", "Fill an empty register of its own with an invented herbarium, without serving.",
            "accession demo",
            "accession demo --data herbarium-demo")
        {
            dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => CommandAnswers.InOneSentenceAsync(() => FillAsync(
            Demo.Of(settings(parsed)), parsed.GetValue(dryRun), parsed.GetValue(json), cancellation)));
        return command;
    }

    private static async Task<int> FillAsync(
        Settings settings, bool dryRun, bool json, CancellationToken cancellation)
    {
        await using var app = AccessionServer.BuildWithAccounts(settings);
        app.CheckSettings();
        var folder = app.Services.GetRequiredService<DataFolder>().Root;
        var wasThere = await IsThereAsync(app, folder, cancellation);
        IReadOnlyList<FirstStart.PrintedLink> links = [];
        if (!dryRun)
        {
            await FirstStart.PrepareAsync(app, cancellation);
            links = await FirstStart.LinksAsync(app, demo: true, cancellation);
        }

        await CommandTalk.AnswerAsync(
            json, () => new { folder, wasThere, dryRun, links }, () => Words(folder, wasThere, dryRun, links));
        return ExitCode.Done;
    }

    /// <summary>Whether the demo is there to its end.</summary>
    /// <exception cref="CommandRefusedException">There is a register that is none of the demo.</exception>
    private static async Task<bool> IsThereAsync(WebApplication app, string folder, CancellationToken cancellation)
    {
        await using var scope = app.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        var register = await RegistersAtHand.OfAsync(db, cancellation);
        if (register == RegisterAtHand.None)
        {
            return false;
        }

        if (RegistersAtHand.WhyNot(register, app.Services.GetRequiredService<DataFolder>()) is { } reason)
        {
            throw new CommandRefusedException(reason);
        }

        var isBegun = await db.Acts.AnyAsync(act => act.RequestKey == DemoStory.FirstKey, cancellation);
        if (!isBegun && (await db.Acts.AnyAsync(cancellation) || await db.Users.AnyAsync(cancellation)))
        {
            throw new CommandRefusedException(
                $"The register in {folder} holds something else than the demo. Name another folder with --data.");
        }

        return await db.Acts.AnyAsync(act => act.RequestKey == DemoStory.LastKey, cancellation);
    }

    private static string Words(
        string folder, bool wasThere, bool dryRun, IReadOnlyList<FirstStart.PrintedLink> links)
    {
        if (dryRun)
        {
            return wasThere
                ? $"The invented herbarium is in {folder} already. New links would be made. Nothing was done."
                : $"{folder} would be filled with the invented herbarium. Nothing was done.";
        }

        var lines = string.Concat(links.Select(link => $"\n  {link.Who,-15} {link.Link}"));
        return $"""
            {(wasThere ? "The invented herbarium was there already" : "The invented herbarium is ready")}, in {folder}.
            Start it with accession serve --demo{(folder == DefaultFolder ? "" : $" --data {folder}")}
            Links to sign in with once, within 24 hours, behind the address of the server:{lines}
            """;
    }

    private static string DefaultFolder => Path.GetFullPath(Demo.Of(new Settings()).DataFolder!);
}
