using System.CommandLine;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// <c>user</c>: the accounts, for whoever may use the console of the machine. No password is ever typed here: a person
/// comes in by a link that works once, and chooses one there.
/// </summary>
internal static class UserCommand
{
    public static Command Create()
    {
        var command = new CommandWithExamples(
            "user", "List who may come in, let somebody in, change the work, or make a new sign-in link.",
            "accession user list --data herbarium",
            "accession user add ada@herbarium.example --role Curator --name \"Ada Quill\" --data herbarium",
            "accession user link ada@herbarium.example --data herbarium");
        command.Subcommands.Add(List());
        command.Subcommands.Add(Add());
        command.Subcommands.Add(RoleOf());
        command.Subcommands.Add(Link());
        return command;
    }

    private static Option<bool> Json() => new("--json") { Description = "Tell the result as JSON" };

    private static Option<bool> DryRun() =>
        new("--dry-run") { Description = "Say what would be done, without doing it" };

    private static Argument<string> Name() =>
        new("name") { Description = "The name to sign in with, mostly a mail address" };

    private static CommandWithExamples List()
    {
        var json = Json();
        var command = new CommandWithExamples(
            "list", "List everybody who may come in, with what they do here.", "accession user list --data herbarium")
        {
            json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => WithAccountsAsync(
            settings(parsed), services => ListAsync(services, parsed.GetValue(json), cancellation), cancellation));
        return command;
    }

    private static CommandWithExamples Add()
    {
        var (name, dryRun, json) = (Name(), DryRun(), Json());
        var (roles, counties) = (Roles(), Counties());
        var display = new Option<string?>("--name") { Description = "The person's name, as it stands in the trail" };
        var command = new CommandWithExamples(
            "add", "Let somebody in, and print the link to sign in with once.",
            "accession user add ada@herbarium.example --role Curator --name \"Ada Quill\" --data herbarium")
        {
            name, roles, counties, display, dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => WithAccountsAsync(
            settings(parsed),
            services =>
            {
                var userName = parsed.GetRequiredValue(name);
                return AddAsync(
                    services,
                    new(
                        userName, parsed.GetValue(display) ?? userName, [.. parsed.GetValue(roles)!.Distinct()],
                        string.Join('\n', parsed.GetValue(counties)!)),
                    (parsed.GetValue(dryRun), parsed.GetValue(json)), cancellation);
            },
            cancellation));
        return command;
    }

    private static Option<Role[]> Roles() => new("--role")
    {
        Description = "What the person does here; may be repeated",
        Required = true,
        AllowMultipleArgumentsPerToken = true,
    };

    private static Option<string[]> Counties() => new("--county")
    {
        Description = "A county that a weed officer sees, with its state, as \"Harney, Oregon\"; may be repeated",
        DefaultValueFactory = _ => [],
    };

    private static CommandWithExamples RoleOf()
    {
        var (name, roles, counties, dryRun, json) = (Name(), Roles(), Counties(), DryRun(), Json());
        var command = new CommandWithExamples(
            "role", "Give somebody just this work, instead of what it was.",
            "accession user role ada@herbarium.example --role WeedOfficer --county \"Harney, Oregon\" --data herbarium")
        {
            name, roles, counties, dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => WithAccountsAsync(
            settings(parsed),
            services => ChangeAsync(
                services, parsed.GetRequiredValue(name),
                ([.. parsed.GetValue(roles)!.Distinct()], string.Join('\n', parsed.GetValue(counties)!)),
                (parsed.GetValue(dryRun), parsed.GetValue(json)), cancellation),
            cancellation));
        return command;
    }

    private static CommandWithExamples Link()
    {
        var (name, dryRun, json) = (Name(), DryRun(), Json());
        var command = new CommandWithExamples(
            "link", "Make a new link for somebody who is in already; earlier ones stop working.",
            "accession user link ada@herbarium.example --data herbarium")
        {
            name, dryRun, json,
        };
        var settings = CommandSettings.AddTo(command);
        command.SetAction((parsed, cancellation) => WithAccountsAsync(
            settings(parsed),
            services => LinkAsync(
                services, parsed.GetRequiredValue(name), (parsed.GetValue(dryRun), parsed.GetValue(json)),
                cancellation),
            cancellation));
        return command;
    }

    private static Task<int> WithAccountsAsync(
        Settings settings, Func<IServiceProvider, Task<int>> run, CancellationToken cancellation) =>
        CommandAnswers.InOneSentenceAsync(async () =>
        {
            await using var app = AccessionServer.BuildWithAccounts(settings);
            app.CheckSettings();
            await using var scope = app.Services.CreateAsyncScope();
            await RegistersAtHand.RequireAsync(scope.ServiceProvider, cancellation);
            return await run(scope.ServiceProvider);
        });

    private static async Task<int> ListAsync(IServiceProvider services, bool json, CancellationToken cancellation)
    {
        var db = services.GetRequiredService<AccessionDb>();
        var roles = (await db.UserRoles
            .Join(db.Roles, link => link.RoleId, role => role.Id, (link, role) => new { link.UserId, role.Name })
            .ToListAsync(cancellation)).ToLookup(role => role.UserId, role => role.Name!);
        var people = await db.Users.OrderBy(user => user.UserName)
            .Select(user => new { user.Id, user.UserName, user.DisplayName }).ToListAsync(cancellation);
        foreach (var person in people)
        {
            var does = roles[person.Id].Order().ToList();
            await CommandTalk.AnswerAsync(
                json,
                () => new { Name = person.UserName, person.DisplayName, Roles = does },
                () => $"{person.UserName}  {person.DisplayName}  {string.Join(", ", does)}");
        }

        if (people.Count == 0)
        {
            await CommandTalk.SayAsync("Nobody may come in yet. Starting the server makes the first administrator.");
        }

        return ExitCode.Done;
    }

    private static async Task<int> AddAsync(
        IServiceProvider services, CreateAccount.Request person, (bool DryRun, bool Json) how,
        CancellationToken cancellation)
    {
        if (!how.DryRun)
        {
            await services.GetRequiredService<People>().EnsureRolesAsync();
            var outcome = await services.GetRequiredService<CreateAccount>()
                .RunAsync(person, Door.System, cancellation);
            return await InviteAsync(person.UserName!, outcome, how.Json);
        }

        return await FindAsync(services, person.UserName!, cancellation) is not null
            ? throw new CommandRefusedException($"{person.UserName} may come in already.")
            : await SayAsync(
                $"{person.UserName} would be let in as {string.Join(", ", person.Roles)}.", person, how.Json);
    }

    private static async Task<int> ChangeAsync(
        IServiceProvider services, string name, (IReadOnlyList<Role> Roles, string Counties) work,
        (bool DryRun, bool Json) how, CancellationToken cancellation)
    {
        var account = await FindAsync(services, name, cancellation)
            ?? throw new CommandRefusedException($"Nobody signs in as {name}. accession user list names everybody.");
        var does = string.Join(", ", work.Roles);
        if (how.DryRun)
        {
            return await SayAsync($"The work of {name} would be {does}.", new { name, Roles = does }, how.Json);
        }

        await services.GetRequiredService<People>().EnsureRolesAsync();
        var outcome = await services.GetRequiredService<ChangeAccount>()
            .RunAsync(new(account, work.Roles, work.Counties), Door.System, cancellation);
        if (outcome.IsRefused)
        {
            return await CommandTalk.RefuseAsync(outcome.Refusals);
        }

        await CommandTalk.AnswerAsync(
            how.Json, () => new { name, DisplayName = outcome.Value, Roles = does },
            () => $"The work of {outcome.Value} is {does}, at the latest a minute from now.");
        return ExitCode.Done;
    }

    private static async Task<int> LinkAsync(
        IServiceProvider services, string name, (bool DryRun, bool Json) how, CancellationToken cancellation)
    {
        var account = await FindAsync(services, name, cancellation)
            ?? throw new CommandRefusedException($"Nobody signs in as {name}. accession user list names everybody.");
        return how.DryRun
            ? await SayAsync($"{name} would get a new link, and earlier ones stop working.", new { name }, how.Json)
            : await InviteAsync(
                name,
                await services.GetRequiredService<CreateAccount>()
                    .LinkAgainAsync(account, Door.System, cancellation),
                how.Json);
    }

    private static Task<string?> FindAsync(IServiceProvider services, string name, CancellationToken cancellation)
    {
        var folded = name.ToUpperInvariant();   // as accounts are found by their names
        return services.GetRequiredService<AccessionDb>().Users.Where(user => user.NormalizedUserName == folded)
            .Select(user => user.Id).SingleOrDefaultAsync(cancellation);
    }

    private static async Task<int> SayAsync(string sentence, object person, bool json)
    {
        await CommandTalk.AnswerAsync(
            json, () => new { DryRun = true, person }, () => $"{sentence} Nothing was done.");
        return ExitCode.Done;
    }

    private static async Task<int> InviteAsync(string name, Outcome<CreateAccount.Invitation> outcome, bool json)
    {
        if (outcome.IsRefused)
        {
            return await CommandTalk.RefuseAsync(outcome.Refusals);
        }

        await CommandTalk.AnswerAsync(
            json,
            () => new { name, outcome.Value.DisplayName, outcome.Value.Link },
            () => $"""
                {outcome.Value.DisplayName} signs in once, within 7 days, behind the address of the server:
                  {outcome.Value.Link}
                """);
        return ExitCode.Done;
    }
}
