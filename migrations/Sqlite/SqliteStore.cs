using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Databases.Sqlite;
using Accession.Storage.Work;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Accession.Migrations.Sqlite;

/// <summary>The register in one SQLite file.</summary>
public static class SqliteStore
{
    /// <summary>Keeps the register in this file; its schema comes from this project's migrations.</summary>
    /// <param name="options">The options of a context.</param>
    /// <param name="file">The file.</param>
    /// <param name="more">What else listens to the contexts, as whoever carries out what is asked often.</param>
    public static DbContextOptionsBuilder UseAccessionSqlite(
        this DbContextOptionsBuilder options, string file, params IInterceptor[] more) => options
        .UseSqlite(
            new SqliteConnectionStringBuilder { DataSource = file }.ToString(),
            sqlite => sqlite
                .MigrationsAssembly(typeof(SqliteStore).Assembly.GetName().Name)
                .UseQuerySplittingBehavior(QuerySplittingBehavior.SplitQuery))
        .LeaveFailuresToCallers()
        .AddInterceptors([new SqlitePragmas(), .. more]);
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
