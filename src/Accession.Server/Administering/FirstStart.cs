using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;

namespace Accession.Server.Administering;

/// <summary>What a start does before the doors open, and the links it tells whoever started it.</summary>
public static class FirstStart
{
    private static readonly TimeSpan LinkLasts = TimeSpan.FromHours(24);

    // In the order in which somebody who looks at the demo meets them.
    private static readonly Role[] Roles =
    [
        Role.Curator, Role.Technician, Role.Administrator, Role.Determiner, Role.Collector, Role.WeedOfficer,
    ];

    /// <summary>A link to sign in with once.</summary>
    public sealed record PrintedLink(string Who, string Link);

    /// <summary>Creates or migrates the register and makes sure the roles are there.</summary>
    public static async Task PrepareAsync(IHost app, CancellationToken cancellation)
    {
        app.CheckSettings();
        await using var alone = await app.AloneAsync(cancellation);
        await app.MigrateAsync(cancellation);
        await using var scope = app.Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<People>().EnsureRolesAsync();
    }

    /// <summary>
    /// The first administrator's link, printed at each start until an administrator has come in; with the demo, one for
    /// each role.
    /// </summary>
    public static async Task<IReadOnlyList<PrintedLink>> LinksAsync(
        IHost app, bool demo, CancellationToken cancellation)
    {
        await using var alone = await app.AloneAsync(cancellation);
        await using var scope = app.Services.CreateAsyncScope();
        var people = scope.ServiceProvider.GetRequiredService<People>();
        if (demo)
        {
            await scope.ServiceProvider.GetRequiredService<Demo>().FillAsync(cancellation);
            return await DemoLinksAsync(people, cancellation);
        }

        return await people.FirstAdministratorAsync(cancellation) is { } first
            ? [new("Administrator", await people.MakeLinkAsync(first, LinkLasts, cancellation))]
            : [];
    }

    private static async Task<IReadOnlyList<PrintedLink>> DemoLinksAsync(People people, CancellationToken cancellation)
    {
        List<PrintedLink> links = [];
        foreach (var role in Roles)
        {
            var account = await people.EnsureAsync(Demo.UserName(role), Demo.DisplayName(role), role);
            links.Add(new(role.Said(), await people.MakeLinkAsync(account, LinkLasts, cancellation)));
        }

        return links;
    }
}
