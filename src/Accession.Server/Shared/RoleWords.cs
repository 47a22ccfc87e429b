using Accession.Core.Outcomes;

namespace Accession.Server.Shared;

/// <summary>What kinds of work are called.</summary>
internal static class RoleWords
{
    public static string Said(this Role role) => role == Role.WeedOfficer ? "Weed officer" : role.ToString();
}
