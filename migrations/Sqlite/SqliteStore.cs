using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Databases.Sqlite;
using Accession.Storage.Work;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Accession.Migrations.Sqlite;

/// <summary>The register in one SQLite file.</summary>
public static class SqliteStore
{
    /// <summary>Keeps the register in this file; its schema comes from this project's migrations.</summary>
    public static DbContextOptionsBuilder UseAccessionSqlite(this DbContextOptionsBuilder options, string file) => options
        .UseSqlite(
            new SqliteConnectionStringBuilder { DataSource = file }.ToString(),
            sqlite => sqlite
                .MigrationsAssembly(typeof(SqliteStore).Assembly.GetName().Name)
                .UseQuerySplittingBehavior(QuerySplittingBehavior.SplitQuery))
        .LeaveFailuresToCallers()
        .AddInterceptors(new SqlitePragmas());
}

/// <summary>For the tool that writes migrations.</summary>
internal sealed class DesignTimeFactory : IDesignTimeDbContextFactory<AccessionDb>
{
    public AccessionDb CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<AccessionDb>().UseIdentitySchema();
        options.UseAccessionSqlite("design-time.db");
        return new AccessionDb(options.Options, new SqliteDatabase(), new WorkBell());
    }
}
