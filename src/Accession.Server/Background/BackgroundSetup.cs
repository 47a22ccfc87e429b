using Accession.Storage.Work;
using Hangfire;
using Hangfire.AspNetCore;
using Hangfire.InMemory;

namespace Accession.Server.Background;

/// <summary>
/// Hangfire runs the work; our own table says what is due. Work is handed over as soon as it is committed, and swept
/// each minute for what was left lying by a process that died.
/// </summary>
internal static class BackgroundSetup
{
    public static IServiceCollection AddBackground(this IServiceCollection services)
    {
        // Registered by ourselves and first: otherwise Hangfire takes those of whichever host was set up last.
        services.AddSingleton<JobActivator, AspNetCoreJobActivator>();
        services.AddSingleton<JobStorage>(
            _ => new InMemoryStorage(new InMemoryStorageOptions { MaxExpirationTime = TimeSpan.FromHours(1) }));
        services.AddHangfire(hangfire => hangfire
            .UseSimpleAssemblyNameTypeSerializer()
            .UseRecommendedSerializerSettings());
        services.AddHangfireServer(server =>
        {
            server.WorkerCount = 2;
            server.SchedulePollingInterval = TimeSpan.FromSeconds(5);
            server.ShutdownTimeout = TimeSpan.FromSeconds(10);
        });
        services.AddSingleton<RunWork>();
        services.AddScoped<StopWork>();
        services.AddHostedService<Sweep>();
        return services.AddWorkKinds();
    }

    /// <summary>Names a kind of work, and what becomes of it where a register is restored.</summary>
    public static IServiceCollection AddWork<T>(
        this IServiceCollection services, string kind, AfterRestore afterRestore)
        where T : class, IWork =>
        services.AddSingleton(new WorkKind(kind, afterRestore)).AddKeyedScoped<IWork, T>(kind);

    /// <summary>What a command needs to run the work that it wrote itself.</summary>
    public static IServiceCollection AddWorkKinds(this IServiceCollection services)
    {
        services.AddSingleton<RunWork>();
        return services;
    }
}
