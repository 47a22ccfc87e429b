using Accession.Server.Hosting;

namespace Accession.Server.Numbering;

internal static class NumberingSlice
{
    public static IServiceCollection AddNumbering(this IServiceCollection services) => services;
}
