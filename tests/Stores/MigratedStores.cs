namespace Accession.Tests.Stores;

/// <summary>The register alone, with its tables, on the embedded database.</summary>
public sealed class StoreOnSqlite : SqliteTestStore
{
    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        await MigrateAsync();
    }
}

/// <summary>The register alone, with its tables, on PostgreSQL.</summary>
public sealed class StoreOnPostgreSql : PostgreSqlTestStore
{
    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        if (WhyMissing is null)
        {
            await MigrateAsync();
        }
    }
}
