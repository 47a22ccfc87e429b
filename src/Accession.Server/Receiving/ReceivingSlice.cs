using Accession.Server.Hosting;

namespace Accession.Server.Receiving;

internal static class ReceivingSlice
{
    public static IServiceCollection AddReceiving(this IServiceCollection services)
    {
        services.AddSettings<ReceivingOptions>("Receiving");
        return services;
    }
}
