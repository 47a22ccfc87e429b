using Accession.Storage.Specimens;

namespace Accession.Server.Treating;

internal static class TreatingSlice
{
    public static IServiceCollection AddTreating(this IServiceCollection services) => services
        .AddScoped<WriteFreezer>()
        .AddScoped<WriteRegime>()
        .AddScoped<MakeHouseRule>()
        .AddScoped<EndHouseRule>()
        .AddScoped<ListLoad>()
        .AddScoped<AddToLoad>()
        .AddScoped<TakeOffLoad>()
        .AddScoped<OpenLoadNumbers>()
        .AddScoped<CloseLid>()
        .AddScoped<TakeLoadOut>()
        .AddScoped<SettleLoad>()
        .AddScoped<RepeatLoad>()
        .AddScoped<WaiveTreatment>()
        .AddScoped<PartsOfLoads>();
}
