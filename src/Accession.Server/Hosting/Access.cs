using System.Security.Claims;
using System.Threading.RateLimiting;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>Who may come in, and who may do what. A page names one of these policies or stands open by name.</summary>
internal static class Access
{
    /// <summary>Everybody who works in the herbarium.</summary>
    public const string Staff = nameof(Staff);

    /// <summary>Everybody who may look at sheets; which ones is said by <see cref="SeenSheets"/>.</summary>
    public const string Readers = nameof(Readers);

    public const string Collectors = nameof(Collectors);

    public const string Curators = nameof(Curators);

    /// <summary>Who number sheets: technicians, and curators.</summary>
    public const string Bench = nameof(Bench);

    /// <summary>Who name sheets: curators, and determiners with an account.</summary>
    public const string Determining = nameof(Determining);

    public const string Administrators = nameof(Administrators);

    /// <summary>How often one address may try to sign in.</summary>
    public const string SignInRate = nameof(SignInRate);

    public static IServiceCollection AddAccess(this IServiceCollection services)
    {
        services.AddSettings<SignInOptions>("SignIn");
        services.AddSettings<BenchOptions>("Bench");
        services.AddScoped<BadgeHolders>().AddScoped<TakeUpWork>().AddScoped<BenchHands>();
        services.AddDataProtection().SetApplicationName("Accession").PersistKeysToDbContext<AccessionDb>();
        services.AddIdentityCore<Account>(identity =>
            {
                IdentitySchema.Use(identity);
                identity.SignIn.RequireConfirmedAccount = true;   // by OpenAccounts: a closed account opens nothing
                identity.User.AllowedUserNameCharacters = "";
                identity.Password.RequiredLength = 12;
                identity.Password.RequireDigit = false;
                identity.Password.RequireLowercase = false;
                identity.Password.RequireUppercase = false;
                identity.Password.RequireNonAlphanumeric = false;
                identity.Lockout.MaxFailedAccessAttempts = 8;
                identity.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(10);
            })
            .AddRoles<IdentityRole>()
            .AddEntityFrameworkStores<AccessionDb>()
            .AddSignInManager<Doorkeeper>()
            .AddClaimsPrincipalFactory<NamedClaims>()
            .AddDefaultTokenProviders();
        services.AddScoped<IUserConfirmation<Account>, OpenAccounts>();
        services.AddHttpContextAccessor();
        services.AddAuthentication(IdentityConstants.ApplicationScheme).AddIdentityCookies(cookies =>
            cookies.ApplicationCookie!.Configure(cookie =>
            {
                cookie.Cookie.Name = "accession";
                cookie.Cookie.HttpOnly = true;
                cookie.Cookie.SameSite = SameSiteMode.Lax;
                cookie.LoginPath = "/sign-in";
                cookie.AccessDeniedPath = "/not-yours";
                cookie.ExpireTimeSpan = TimeSpan.FromHours(14);
                cookie.SlidingExpiration = true;
            }));
        services.Configure<SecurityStampValidatorOptions>(o => o.ValidationInterval = TimeSpan.FromMinutes(1));
        services.AddAuthorizationBuilder()
            .SetFallbackPolicy(new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build())
            .AddPolicy(Staff, Any(Role.Curator, Role.Technician, Role.Administrator))
            .AddPolicy(Readers, Any(
                Role.Curator, Role.Technician, Role.Administrator, Role.Determiner, Role.WeedOfficer, Role.Collector))
            .AddPolicy(Collectors, Any(Role.Collector))
            .AddPolicy(Bench, Any(Role.Curator, Role.Technician))
            .AddPolicy(Determining, Any(Role.Curator, Role.Determiner))
            .AddPolicy(Curators, Any(Role.Curator))
            .AddPolicy(Administrators, Any(Role.Administrator));
        services.AddRateLimiter(limits =>
        {
            limits.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limits.AddPolicy(SignInRate, context => RateLimitPartition.GetFixedWindowLimiter(
                context.Connection.RemoteIpAddress?.ToString() ?? "unknown",
                _ => new FixedWindowRateLimiterOptions
                {
                    PermitLimit = context.RequestServices.GetRequiredService<IOptions<SignInOptions>>()
                        .Value.TriesPerMinute,
                    Window = TimeSpan.FromMinutes(1),
                }));
            limits.OnRejected = (rejected, _) =>
            {
                rejected.HttpContext.Response.Headers.RetryAfter = "60";
                return ValueTask.CompletedTask;
            };
        });
        return services;
    }

    /// <summary>The signed-in person as the operations know them.</summary>
    public static Actor Actor(this ClaimsPrincipal user) => new(
        user.FindFirstValue(ClaimTypes.NameIdentifier),
        user.FindFirstValue(NamedClaims.DisplayName) ?? "Somebody",
        Enum.GetValues<Role>().Where(role => user.IsInRole(role.ToString())).ToHashSet());

    /// <summary>The signed-in person at this request, with the key that the form or the script sent.</summary>
    public static Door Door(this HttpContext context)
    {
        var key = context.Request.Headers["X-Request-Key"].FirstOrDefault()
            ?? (context.Request.HasFormContentType ? context.Request.Form["RequestKey"].FirstOrDefault() : null);
        return new Door(context.User.Actor(), string.IsNullOrWhiteSpace(key) || key.Length > 80 ? null : key);
    }

    private static Action<AuthorizationPolicyBuilder> Any(params Role[] roles) =>
        policy => policy.RequireRole(roles.Select(role => role.ToString()));
}

/// <summary>Puts the display name into the cookie, so that no page asks the database for it.</summary>
internal sealed class NamedClaims(
    UserManager<Account> accounts, RoleManager<IdentityRole> roles, IOptions<IdentityOptions> options)
    : UserClaimsPrincipalFactory<Account, IdentityRole>(accounts, roles, options)
{
    public const string DisplayName = "display_name";

    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(new Claim(DisplayName, user.DisplayName));
        return identity;
    }
}
