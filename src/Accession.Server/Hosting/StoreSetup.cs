using Accession.Migrations.PostgreSql;
using Accession.Migrations.Sqlite;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Databases.PostgreSql;
using Accession.Storage.Databases.Sqlite;
using Accession.Storage.Finding;
using Accession.Storage.Localities;
using Accession.Storage.Numbers;
using Accession.Storage.Specimens;
using Accession.Storage.Work;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Npgsql;

namespace Accession.Server.Hosting;

/// <summary>Wires the register to the database that the settings name.</summary>
internal static class StoreSetup
{
    public static IServiceCollection AddStore(this IServiceCollection services)
    {
        services.AddSettings<StoreOptions>("Store")
            .Validate(
                store => store.Kind != StoreKind.PostgreSql || !string.IsNullOrWhiteSpace(store.Connection),
                "Store:Kind is PostgreSql, so Store:Connection must say how to reach the database.")
            .Validate(
                store => IsReadable(store.Connection),
                "Store:Connection cannot be read; write it as Host=…;Database=…;Username=…;Password=….")
            .Validate(
                store => store.PublicRole is null || store.Kind == StoreKind.PostgreSql,
                "Store:PublicRole is a role of PostgreSQL; leave it out, or set Store:Kind to PostgreSql.")
            .Validate(
                store => store.PublicRole is null || !string.IsNullOrWhiteSpace(store.PublicRole),
                "Store:PublicRole is empty; name a role of PostgreSQL, or leave it out.");
        services.AddSettings<InstitutionOptions>("Institution")
            .Validate(
                institution => TimeZoneInfo.TryFindSystemTimeZoneById(institution.TimeZone, out _),
                "Institution:TimeZone is not a time zone this machine knows; write it as America/Los_Angeles.");
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<DataFolder>();
        services.AddSingleton<WorkBell>();
        services.AddSingleton<IDatabase>(provider => Store(provider).Kind == StoreKind.Sqlite
            ? new SqliteDatabase()
            : new PostgreSqlDatabase(Store(provider).PublicRole));
        services.AddSingleton<PreparedReaders>();
        services.AddDbContextPool<AccessionDb>(Configure);
        services.Configure<IdentityOptions>(IdentitySchema.Use);   // commands have no accounts, but the same tables
        services.AddScoped<WorkClaims>();
        services.AddScoped<SeenSheets>();
        services.AddSingleton<BorneToTheLetter>();
        services.AddScoped<TypedNumbers>();
        services.AddScoped<NumbersOnRolls>();
        services.AddScoped<MovesBack>();
        services.AddSingleton<InstitutionClock>();
        return services;
    }

    /// <summary>
    /// Options of a slice: from every source of settings, checked at the start, unknown names refused.
    /// </summary>
    public static OptionsBuilder<T> AddSettings<T>(this IServiceCollection services, string section)
        where T : class => services
            .AddSingleton(new SettingsSection(section))
            .AddOptions<T>()
            .BindConfiguration(section, binder => binder.ErrorOnUnknownConfiguration = true)
            .ValidateDataAnnotations()
            .ValidateOnStart();

    /// <summary>Checks every setting before anything is touched.</summary>
    /// <exception cref="WrongSettingException">A section has a name that nobody reads.</exception>
    public static void CheckSettings(this IHost app)
    {
        var known = app.Services.GetServices<SettingsSection>().Select(section => section.Name)
            .Concat(["Logging", "Server", "Kestrel"])
            .ToHashSet(StringComparer.OrdinalIgnoreCase);
        var unknown = app.Services.GetRequiredService<IConfiguration>().GetChildren()
            .FirstOrDefault(section => section.GetChildren().Any() && !known.Contains(section.Key));
        if (unknown is not null)
        {
            throw new WrongSettingException(
                $"There are no settings called {unknown.Key}; there are {string.Join(", ", known.Order())}.");
        }

        app.Services.GetRequiredService<IStartupValidator>().Validate();
    }

    /// <summary>
    /// Creates or migrates the register, and only when something is pending; then sees to the rights of the public
    /// role. The caller is <see cref="AloneAsync"/>.
    /// </summary>
    public static async Task MigrateAsync(this IHost app, CancellationToken cancellation)
    {
        await using var scope = app.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        var register = await RegistersAtHand.OfAsync(db, cancellation);
        if (register == RegisterAtHand.Newer)
        {
            throw new WrongSettingException(RegistersAtHand.IsNewer);
        }

        if (register != RegisterAtHand.Current)
        {
            await db.Kind.BeforeMigratingAsync(db, cancellation);
            await db.Database.MigrateAsync(cancellation);
        }

        await CountiesBroughtUp.RunAsync(db, cancellation);
        await FindTexts.BringUpAsync(db, cancellation);
        await NameWords.BringUpAsync(db, cancellation);

        if (await db.Kind.GrantPublicAsync(db, cancellation) is { } reason)
        {
            throw new WrongSettingException($"Store:PublicRole cannot be used. {reason}");
        }
    }

    /// <summary>
    /// Holds off every other start: on this folder by a file in it, on this register by the database. Both would make
    /// the same tables, roles and first accounts.
    /// </summary>
    public static async Task<IAsyncDisposable> AloneAsync(this IHost app, CancellationToken cancellation)
    {
        var alone = new AloneAtStart(
            await app.Services.GetRequiredService<DataFolder>().LockAsync(TimeProvider.System, cancellation),
            app.Services.CreateAsyncScope());
        try
        {
            await alone.HoldRegisterAsync(cancellation);
            return alone;
        }
        catch
        {
            await alone.DisposeAsync();
            throw;
        }
    }

    private static void Configure(IServiceProvider provider, DbContextOptionsBuilder options)
    {
        var store = Store(provider);
        if (store.Kind == StoreKind.Sqlite)
        {
            options.UseAccessionSqlite(
                provider.GetRequiredService<DataFolder>().RegisterFile, provider.GetRequiredService<PreparedReaders>());
        }
        else
        {
            options.UseAccessionPostgreSql(store.Connection!);
        }
    }

    private static bool IsReadable(string? connection)
    {
        try
        {
            return new NpgsqlConnectionStringBuilder(connection) is not null;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    private static StoreOptions Store(IServiceProvider provider) =>
        provider.GetRequiredService<IOptions<StoreOptions>>().Value;
}

/// <summary>A section of settings that some part of the program reads.</summary>
internal sealed record SettingsSection(string Name);
