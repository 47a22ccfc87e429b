using Accession.Server.Hosting;

namespace Accession.Server.Publishing;

internal static class PublishingSlice
{
    public static IServiceCollection AddPublishing(this IServiceCollection services) => services;
}
