using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Databases.PostgreSql;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Accession.Migrations.PostgreSql;

/// <summary>The register in a PostgreSQL database.</summary>
public static class PostgreSqlStore
{
    /// <summary>Keeps the register in this database; its schema comes from this project's migrations.</summary>
    public static DbContextOptionsBuilder UseAccessionPostgreSql(
        this DbContextOptionsBuilder options, string connection) => options
        .UseNpgsql(
            connection,
            postgres => postgres
                .MigrationsAssembly(typeof(PostgreSqlStore).Assembly.GetName().Name)
                .UseQuerySplittingBehavior(QuerySplittingBehavior.SplitQuery))
        .LeaveFailuresToCallers()
        // A restore makes the tables in the transaction that fills them; it holds the lock of a start meanwhile.
        .ConfigureWarnings(events => events.Ignore(RelationalEventId.MigrationsUserTransactionWarning))
        .AddInterceptors(new PostgreSqlHeldRows());
}

/// <summary>For the tool that writes migrations.</summary>
internal sealed class DesignTimeFactory : IDesignTimeDbContextFactory<AccessionDb>
{
    public AccessionDb CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<AccessionDb>().UseIdentitySchema();
        options.UseAccessionPostgreSql("Host=localhost;Database=design-time");
        return new AccessionDb(options.Options, new PostgreSqlDatabase(), new WorkBell());
    }
}
