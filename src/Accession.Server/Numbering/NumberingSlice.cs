using Accession.Storage.Numbers;

namespace Accession.Server.Numbering;

internal static class NumberingSlice
{
    public static IServiceCollection AddNumbering(this IServiceCollection services) => services
        .AddScoped<BeginSeries>()
        .AddScoped<AdoptBorne>()
        .AddScoped<RegisterRoll>()
        .AddScoped<AccountForNumbers>()
        .AddScoped<VoidNumbers>()
        .AddScoped<TakeVoidBack>()
        .AddScoped<NumbersOnSheets>()
        .AddScoped<CloseSeries>()
        .AddScoped<OpenSeries>()
        .AddScoped<CloseEverySeries>()
        .AddScoped<NumberSheet>()
        .AddScoped<ScanSheet>()
        .AddScoped<ExpectAnotherSheet>()
        .AddScoped<CatalogNumbers>();
}
