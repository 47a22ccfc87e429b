namespace Accession.Server.Determining;

internal static class DeterminingSlice
{
    public static IServiceCollection AddDetermining(this IServiceCollection services) => services
        .AddScoped<RecordOpinion>()
        .AddScoped<ChooseName>();
}
