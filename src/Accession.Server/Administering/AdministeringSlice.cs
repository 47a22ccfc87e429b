using Accession.Server.Hosting;

namespace Accession.Server.Administering;

internal static class AdministeringSlice
{
    public static IServiceCollection AddAdministering(this IServiceCollection services) => services
        .AddScoped<People>()
        .AddScoped<CreateAccount>()
        .AddScoped<Demo>();
}
