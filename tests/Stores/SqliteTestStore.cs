using Accession.Migrations.Sqlite;
using Accession.Storage.Databases;
using Accession.Storage.Databases.Sqlite;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Accession.Tests.Stores;

/// <summary>The embedded database: a file in the data folder.</summary>
public class SqliteTestStore : TestStore
{
    public string File => Path.Combine(Folder, "register.db");

    public override IReadOnlyList<string> Settings => ["Store:Kind=Sqlite"];

    public override IDatabase Database { get; } = new SqliteDatabase();

    public override void Use(DbContextOptionsBuilder options) => options.UseAccessionSqlite(File);

    public override ValueTask DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        GC.SuppressFinalize(this);
        return base.DisposeAsync();
    }
}
