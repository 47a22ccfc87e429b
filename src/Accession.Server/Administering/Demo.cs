using Accession.Core.Outcomes;
using Accession.Server.Hosting;

namespace Accession.Server.Administering;

/// <summary>
/// An invented herbarium of an invented field station in the high desert of eastern Oregon. It is filled through the
/// same doors that people use.
/// </summary>
public sealed class Demo(People people)
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
            .. chosen.Set,
        ],
    };

    internal static string UserName(Role role) => $"demo-{role.ToString().ToLowerInvariant()}";

    internal static string DisplayName(Role role) => role switch
    {
        Role.Curator => "Wilhelmina Oakhurst",
        Role.Technician => "Tobias Fennel",
        _ => "Ada Quill",
    };

    /// <summary>Fills an empty register; a filled one is left as it is.</summary>
    public async Task FillAsync(CancellationToken cancellation)
    {
        foreach (var role in Enum.GetValues<Role>())
        {
            await people.EnsureAsync(UserName(role), DisplayName(role), role);
        }
    }
}
