using System.Globalization;
using System.Security.Claims;
using Accession.Core.Outcomes;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;

namespace Accession.Server.Hosting;

/// <summary>
/// Who may come in at the JSON doors: whoever bears a token, and nobody by a cookie; at the pages it is the other way
/// round. Each door asks for one right.
/// </summary>
internal static class TokenAccess
{
    /// <summary>Where the JSON doors are.</summary>
    public const string Prefix = "/api";

    /// <summary>The scheme of tokens.</summary>
    public const string Scheme = "Token";

    /// <summary>The claim of each right that the token gives now.</summary>
    public const string RightClaim = "right";

    private const string ByAddress = "ByAddress";

    public static IServiceCollection AddTokenAccess(this IServiceCollection services)
    {
        services.AddSingleton<FailingTokens>();
        services.AddSingleton<TokenStatements>();
        services.AddAuthentication()
            .AddScheme<AuthenticationSchemeOptions, TokenHandler>(Scheme, null)
            .AddPolicyScheme(ByAddress, null, policy => policy.ForwardDefaultSelector = context =>
                context.IsAtJsonDoor() ? Scheme : IdentityConstants.ApplicationScheme);
        services.PostConfigure<AuthenticationOptions>(authentication => authentication.DefaultScheme = ByAddress);
        return services;
    }

    /// <summary>Whether a request is for a JSON door, or for an address among them that is none.</summary>
    public static bool IsAtJsonDoor(this HttpContext context) => context.Request.Path.StartsWithSegments(Prefix);

    /// <summary>Lets in who has the right, or any of several.</summary>
    public static TBuilder RequireRight<TBuilder>(this TBuilder doors, params Right[] rights)
        where TBuilder : IEndpointConventionBuilder => doors
            .RequireAuthorization(Asking(rights))
            .WithMetadata(new NeededRights(rights));

    /// <summary>Who bears the token, as the operations know them.</summary>
    public static Actor Bearer(this ClaimsPrincipal user) => user.Bearer(Rights.All);

    /// <summary>
    /// Who bears the token, by these of its rights alone: where a door shows to each right what is its own, another
    /// right of the token must not open more of it.
    /// </summary>
    public static Actor Bearer(this ClaimsPrincipal user, IReadOnlyList<Right> rights) => new(
        user.FindFirstValue(ClaimTypes.NameIdentifier),
        user.FindFirstValue(NamedClaims.DisplayName)!,
        Rights.ActsAs(user.FindAll(RightClaim).Select(claim => Enum.Parse<Right>(claim.Value)).Intersect(rights)));

    /// <summary>The claims of a token.</summary>
    internal static ClaimsPrincipal PrincipalOf(string id, string name, IEnumerable<Right> rights) => new(
        new ClaimsIdentity(
            [
                new(ClaimTypes.NameIdentifier, id),
                new(NamedClaims.DisplayName, name),
                .. rights.Select(right => new Claim(RightClaim, right.ToString())),
            ],
            Scheme));

    /// <summary>Who a device is in the acts.</summary>
    internal static string DeviceId(long tokenId) =>
        ApiToken.DevicePrefix + tokenId.ToString(CultureInfo.InvariantCulture);

    private static AuthorizationPolicy Asking(params Right[] rights) => new AuthorizationPolicyBuilder(Scheme)
        .RequireAuthenticatedUser()
        .RequireClaim(RightClaim, rights.Select(right => right.ToString()))
        .Build();
}

/// <summary>The rights of which a door asks one.</summary>
internal sealed record NeededRights(IReadOnlyList<Right> AnyOf);
