namespace Accession.Server.Arriving;

internal static class ArrivingSlice
{
    public static IServiceCollection AddArriving(this IServiceCollection services) => services
        .AddScoped<TagParcel>().AddScoped<OpenTags>().AddScoped<MoveParcel>()
        .AddScoped<TieParcel>();
}
