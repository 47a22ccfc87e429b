using Accession.Server.Hosting;

namespace Accession.Server.Mounting;

internal static class MountingSlice
{
    public static IServiceCollection AddMounting(this IServiceCollection services)
    {
        services.AddSettings<LabelOptions>("Labels");
        return services
            .AddScoped<FinishStep>()
            .AddScoped<TakeStepBack>()
            .AddScoped<PutInPlace>()
            .AddScoped<TakePlaceBack>()
            .AddScoped<PutOnLoad>()
            .AddScoped<TakeLineBack>()
            .AddScoped<StepBenchScan>()
            .AddScoped<LabelsToPrint>()
            .AddScoped<WriteStepPlan>()
            .AddScoped<PartInHand>();
    }
}
