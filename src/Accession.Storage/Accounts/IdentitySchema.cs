using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Accession.Storage.Accounts;

/// <summary>
/// Identity reads the version of its tables from the services round a context, and falls back to the oldest one
/// without. A context built by hand, as the tool that writes migrations does, needs these.
/// </summary>
public static class IdentitySchema
{
    private static readonly IServiceProvider Services = new ServiceCollection()
        .Configure<IdentityOptions>(Use)
        .BuildServiceProvider();

    /// <summary>The tables with passkeys.</summary>
    public static void Use(IdentityOptions identity) => identity.Stores.SchemaVersion = IdentitySchemaVersions.Version3;

    /// <summary>For a context that is built by hand.</summary>
    public static DbContextOptionsBuilder<AccessionDb> UseIdentitySchema(
        this DbContextOptionsBuilder<AccessionDb> options) => options.UseApplicationServiceProvider(Services);
}
