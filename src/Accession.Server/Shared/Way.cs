using System.Security.Claims;
using Accession.Core.Outcomes;

namespace Accession.Server.Shared;

/// <summary>A way to a part of the work, for those who do it.</summary>
internal sealed record Way(string Name, string Address, params Role[] Roles)
{
    private static readonly Way[] All =
    [
        new("Work waiting", "/", Role.Curator, Role.Technician, Role.Administrator),
        new("Receiving", "/batches", Role.Curator),
        new("Key labels", "/batches/key", Role.Technician),
        new("Parcels", "/parcels", Role.Curator, Role.Technician),
        new("Freezers", "/freezer-loads", Role.Curator, Role.Technician),
        new("Numbering", "/numbering", Role.Curator, Role.Technician),
        new("Bench", "/bench/mounted", Role.Curator, Role.Technician),
        new("Places", "/places", Role.Curator, Role.Technician),
        new("What I collected", "/mine", Role.Collector),
        new(
            "Register", "/specimens",
            Role.Curator, Role.Technician, Role.Administrator, Role.Determiner, Role.WeedOfficer),
        new("Collectors", "/collectors", Role.Curator),
        new("Archive", "/archive", Role.Curator),
        new("Series and rolls", "/series", Role.Administrator),
        new("Mail", "/mail", Role.Administrator),
        new("People with access", "/accounts", Role.Administrator),
        new("Devices", "/devices", Role.Administrator),
    ];

    public static IEnumerable<Way> For(ClaimsPrincipal user) =>
        All.Where(way => way.Roles.Any(role => user.IsInRole(role.ToString())));
}
