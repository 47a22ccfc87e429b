using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// An invented herbarium of an invented field station in the high desert of eastern Oregon. It is filled through the
/// same
/// operations that people use.
/// </summary>
public sealed class Demo(People people, AccountWork work, AccessionDb db, IServiceScopeFactory scopes)
{
    /// <summary>The demo has a data folder of its own, so that it can never mix with a real register.</summary>
    internal static Settings Of(Settings chosen) => chosen with
    {
        DataFolder = chosen.DataFolder ?? StoreOptions.DefaultDataFolder + "-demo",
        Set =
        [
            "Institution:Name=Herbarium of the Dry Lakes Field Station (invented)",
            "Institution:InstitutionCode=DEMO",
            "Institution:CollectionCode=DEMO-H",
            "Institution:TimeZone=America/Los_Angeles",
            "Institution:Abstract=An invented herbarium, for looking at the program. Nothing in it was ever collected.",
            .. chosen.Set,
            "Mail:Kind=Files",   // whatever else is set: nothing of a demo leaves the machine
        ],
    };

    internal static string UserName(Role role) => $"demo-{role.ToString().ToLowerInvariant()}";

    internal static string DisplayName(Role role) => role switch
    {
        Role.Curator => "Wilhelmina Oakhurst",
        Role.Technician => "Tobias Fennel",
        Role.Determiner => "Linnea Bracken",
        Role.Collector => DemoLists.Giver,
        Role.WeedOfficer => "Roscoe Thistle",
        _ => "Ada Quill",
    };

    /// <summary>
    /// Fills an empty register; a filled one is left as it is. Each act has a request key, so a filling that was broken
    /// off goes on where it stopped.
    /// </summary>
    public async Task FillAsync(CancellationToken cancellation)
    {
        Dictionary<Role, Actor> staff = [];
        foreach (var role in Enum.GetValues<Role>())
        {
            var account = await people.EnsureAsync(UserName(role), DisplayName(role), role);
            if (role == Role.WeedOfficer)
            {
                await work.GiveAsync(account, [role], $"{DemoPlaces.Harney.Name}, Oregon", cancellation);
                await db.SaveChangesAsync(cancellation);
            }

            staff[role] = new(account.Id, account.DisplayName, new HashSet<Role> { role });
        }

        if (await IsToBeFilledAsync(cancellation))
        {
            await new DemoStory(
                    scopes, staff[Role.Curator], staff[Role.Technician], staff[Role.Determiner], staff[Role.Collector])
                .TellAsync(cancellation);
        }
    }

    private async Task<bool> IsToBeFilledAsync(CancellationToken cancellation)
    {
        if (await db.Acts.AnyAsync(act => act.RequestKey == DemoStory.LastKey, cancellation))
        {
            return false;
        }

        return await db.Acts.AnyAsync(act => act.RequestKey == DemoStory.FirstKey, cancellation)
            || !(await db.Series.AnyAsync(cancellation) || await db.Batches.AnyAsync(cancellation));
    }
}
