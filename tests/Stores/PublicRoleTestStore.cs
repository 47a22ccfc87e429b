using Npgsql;

namespace Accession.Tests.Stores;

/// <summary>
/// A database whose program signs in as an ordinary role that owns it, with a role for what becomes public beside it. All
/// roles go with the database.
/// </summary>
public sealed class PublicRoleTestStore : PostgreSqlTestStore
{
    private readonly string _password = Guid.NewGuid().ToString("N");

    /// <summary>The program belongs to it.</summary>
    public string PublicRole => $"{Name}_public";

    /// <summary>The program does not belong to it.</summary>
    public string ForeignRole => $"{Name}_foreign";

    /// <summary>For a test that makes it itself.</summary>
    public string HandMadeRole => $"{Name}_made";

    /// <summary>The program signs in as it.</summary>
    public string Login => $"{Name}_login";

    public override IReadOnlyList<string> Settings => [.. base.Settings, $"Store:PublicRole={PublicRole}"];

    public override string Connection =>
        new NpgsqlConnectionStringBuilder(base.Connection) { Username = Login, Password = _password }.ToString();

    /// <summary>Runs statements with all rights of the server.</summary>
    public Task AsAdministratorAsync(string sql) => OnServerAsync(sql);

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        if (WhyMissing is null)
        {
            try
            {
                await OnServerAsync($"""
                    CREATE ROLE {PublicRole} NOLOGIN;
                    CREATE ROLE {ForeignRole} NOLOGIN;
                    CREATE ROLE {Login} LOGIN PASSWORD '{_password}' IN ROLE {PublicRole};
                    ALTER DATABASE {Name} OWNER TO {Login};
                    """);
            }
            catch
            {
                await DisposeAsync();
                throw;
            }
        }
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        if (WhyMissing is null)
        {
            await OnServerAsync($"DROP ROLE IF EXISTS {Login}, {HandMadeRole}, {ForeignRole}, {PublicRole}");
        }
    }
}
