namespace Accession.Server.Filing;

internal static class FilingSlice
{
    public static IServiceCollection AddFiling(this IServiceCollection services) => services
        .AddScoped<FileUnder>()
        .AddScoped<WritePlace>()
        .AddScoped<TakeMoveBack>()
        .AddScoped<MoveParts>();
}
