using Accession.Migrations.PostgreSql;
using Accession.Migrations.Sqlite;
using Accession.Storage;
using Accession.Storage.Databases;
using Accession.Storage.Databases.PostgreSql;
using Accession.Storage.Databases.Sqlite;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>Wires the register to the database that the settings name.</summary>
internal static class StoreSetup
{
    public static IServiceCollection AddStore(this IServiceCollection services)
    {
        services.AddSettings<StoreOptions>("Store")
            .Validate(
                store => store.Kind != StoreKind.PostgreSql || !string.IsNullOrWhiteSpace(store.Connection),
                "Store:Kind is PostgreSql, so Store:Connection must say how to reach the database.");
        services.AddSettings<InstitutionOptions>("Institution")
            .Validate(
                institution => TimeZoneInfo.TryFindSystemTimeZoneById(institution.TimeZone, out _),
                "Institution:TimeZone is not a time zone this machine knows; write it as America/Los_Angeles.");
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<DataFolder>();
        services.AddSingleton<WorkBell>();
        services.AddSingleton<IDatabase>(provider => Store(provider).Kind == StoreKind.Sqlite
            ? new SqliteDatabase()
            : new PostgreSqlDatabase());
        services.AddDbContext<AccessionDb>(Configure);
        services.AddScoped<WorkClaims>();
        services.AddSingleton<InstitutionClock>();
        return services;
    }

    /// <summary>Options of a slice: from every source of settings, checked at the start, unknown names refused.</summary>
    public static OptionsBuilder<T> AddSettings<T>(this IServiceCollection services, string section)
        where T : class =>
        services.AddOptions<T>()
            .BindConfiguration(section, binder => binder.ErrorOnUnknownConfiguration = true)
            .ValidateDataAnnotations()
            .ValidateOnStart();

    /// <summary>Creates or migrates the register, one process at a time, and only when something is pending.</summary>
    public static async Task MigrateAsync(this IHost app, CancellationToken cancellation)
    {
        await using var scope = app.Services.CreateAsyncScope();
        var folder = scope.ServiceProvider.GetRequiredService<DataFolder>();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        using var alone = await folder.LockAsync(TimeProvider.System, cancellation);
        if ((await db.Database.GetPendingMigrationsAsync(cancellation)).Any())
        {
            await db.Kind.BeforeMigratingAsync(db, cancellation);
            await db.Database.MigrateAsync(cancellation);
        }
    }

    private static void Configure(IServiceProvider provider, DbContextOptionsBuilder options)
    {
        var store = Store(provider);
        if (store.Kind == StoreKind.Sqlite)
        {
            options.UseAccessionSqlite(provider.GetRequiredService<DataFolder>().RegisterFile);
        }
        else
        {
            options.UseAccessionPostgreSql(store.Connection!);
        }
    }

    private static StoreOptions Store(IServiceProvider provider) =>
        provider.GetRequiredService<IOptions<StoreOptions>>().Value;
}
