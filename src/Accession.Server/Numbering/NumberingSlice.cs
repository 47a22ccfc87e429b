namespace Accession.Server.Numbering;

internal static class NumberingSlice
{
    public static IServiceCollection AddNumbering(this IServiceCollection services) => services
        .AddScoped<BeginSeries>()
        .AddScoped<RegisterRoll>()
        .AddScoped<NumberSheet>()
        .AddScoped<ScanSheet>()
        .AddScoped<ExpectAnotherSheet>()
        .AddScoped<CatalogNumbers>();
}
