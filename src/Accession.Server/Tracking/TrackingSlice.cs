using Accession.Server.Hosting;

namespace Accession.Server.Tracking;

internal static class TrackingSlice
{
    public static IServiceCollection AddTracking(this IServiceCollection services) => services;
}
