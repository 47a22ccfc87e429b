using System.Text.Encodings.Web;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Microsoft.AspNetCore.Authentication;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>
/// Reads the token of a request. What it gives is asked of the register each time, so that a role that was taken away,
/// or an account, takes its tokens with it at once.
/// </summary>
internal sealed class TokenHandler(
    AccessionDb db, TokenStatements tokens, FailingTokens failing, TimeProvider clock,
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory log, UrlEncoder encoder)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, log, encoder)
{
    private const string Lead = "Bearer ";

    private bool _isTooOften;

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var sent = Request.Headers.Authorization.ToString();
        if (sent.Length == 0)
        {
            return AuthenticateResult.NoResult();
        }

        if (sent.StartsWith(Lead, StringComparison.OrdinalIgnoreCase)
            && await FindAsync(sent[Lead.Length..].Trim()) is { } bearer)
        {
            return bearer;
        }

        _isTooOften = !failing.MayTryAgain(Context);
        return AuthenticateResult.Fail("No token that opens anything was sent.");
    }

    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        if (_isTooOften)
        {
            Response.StatusCode = StatusCodes.Status429TooManyRequests;
            Response.Headers.RetryAfter = "60";
            return Task.CompletedTask;
        }

        Response.StatusCode = StatusCodes.Status401Unauthorized;
        Response.Headers.WWWAuthenticate = Request.Headers.Authorization.Count == 0
            ? "Bearer realm=\"Accession\""
            : "Bearer realm=\"Accession\", error=\"invalid_token\"";
        return Task.CompletedTask;
    }

    private async Task<AuthenticateResult?> FindAsync(string secret)
    {
        var hash = SignInLink.Hash(secret);
        var now = clock.GetUtcNow().UtcDateTime;
        var token = await tokens.Find(db, hash, now).SingleOrDefaultAsync(Context.RequestAborted);
        if (token is null)
        {
            return null;
        }

        var rights = ApiToken.RightsIn(token.RightNames).ToList();
        if (token.AccountId is not null)
        {
            var roles = token.Roles
                .Select(name => Enum.TryParse<Role>(name, out var role) ? role : (Role?)null)
                .OfType<Role>().ToHashSet();
            rights.RemoveAll(right => !right.IsFor(roles));
            if (roles.Count == 0 || token.Person is null)
            {
                return null;
            }
        }

        await NoteUseAsync(token.Id, token.LastUsedAt, now);
        var bearer = TokenAccess.PrincipalOf(
            token.AccountId ?? TokenAccess.DeviceId(token.Id), token.Person ?? token.Name, rights);
        return AuthenticateResult.Success(new AuthenticationTicket(bearer, Scheme.Name));
    }

    // Not at each request: that would write a row for every scan.
    private async Task NoteUseAsync(long id, DateTime? lastUsed, DateTime now)
    {
        var before = now - ApiToken.UseIsNotedEvery;
        if (lastUsed is null || lastUsed < before)
        {
            await db.ApiTokens.Where(t => t.Id == id && (t.LastUsedAt == null || t.LastUsedAt < before))
                .ExecuteUpdateAsync(row => row.SetProperty(t => t.LastUsedAt, now), Context.RequestAborted);
        }
    }
}

/// <summary>
/// What every request of a program asks first, made ready once for the register: one statement, and not one more for
/// the roles.
/// </summary>
internal sealed class TokenStatements
{
    /// <param name="Person">Whose it is; null for a device, or where that account is closed.</param>
    internal sealed record Found(
        long Id, string Name, string? AccountId, string RightNames, DateTime? LastUsedAt, string? Person,
        List<string> Roles);

    /// <summary>The token with this hash that opens something now.</summary>
    public Func<AccessionDb, string, DateTime, IAsyncEnumerable<Found>> Find { get; } = EF.CompileAsyncQuery(
        (AccessionDb db, string hash, DateTime now) => db.ApiTokens
            .Where(t => t.TokenHash == hash && t.WithdrawnAt == null && t.ExpiresAt > now)
            .Select(t => new Found(
                t.Id, t.Name, t.AccountId, t.RightNames, t.LastUsedAt,
                db.Users.Where(user => user.Id == t.AccountId && user.ClosedAt == null)
                    .Select(user => user.DisplayName).FirstOrDefault(),
                db.UserRoles.Where(link => link.UserId == t.AccountId)
                    .Join(db.Roles, link => link.RoleId, role => role.Id, (_, role) => role.Name!).ToList()))
            .TagWith(AskedOften.Tag).AsNoTracking().AsSingleQuery());
}
