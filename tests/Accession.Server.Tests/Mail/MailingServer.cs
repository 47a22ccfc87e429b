using Accession.Server.Tests.Ground;
using Accession.Tests.Stores;

namespace Accession.Server.Tests.Mail;

/// <summary>The program with a mail server beside it, saying everything that it can.</summary>
public abstract class MailingServer(TestStore store) : TestServer(store), IAsyncDisposable
{
    internal const string Password = "correct horse battery";

    internal SmtpPeer Peer { get; } = new();

    protected override IReadOnlyList<string> Set =>
    [
        .. SettingsFor(Peer),
        "Mail:TimeoutSeconds=3",
        "Logging:LogLevel:Default=Debug",
        "Logging:Console:LogLevel:Default=None",
        "Logging:LogLevel:Microsoft=Debug",
        "Logging:LogLevel:Microsoft.EntityFrameworkCore.Database.Command=Debug",
    ];

    internal static IReadOnlyList<string> SettingsFor(SmtpPeer peer) =>
    [
        "Mail:Kind=Smtp",
        "Mail:Host=127.0.0.1",
        $"Mail:Port={peer.Port}",
        "Mail:Security=None",
        "Mail:From=herbarium@bench.example",
        "Mail:ReplyTo=desk@bench.example",
        "Mail:User=bench",
        $"Mail:Password={Password}",
        "Mail:FirstPauseSeconds=1",
    ];

    async ValueTask IAsyncDisposable.DisposeAsync()
    {
        await DisposeAsync();
        await Peer.DisposeAsync();
        GC.SuppressFinalize(this);
    }
}

public sealed class MailingOnSqlite() : MailingServer(new SqliteTestStore());

public sealed class MailingOnPostgreSql() : MailingServer(new PostgreSqlTestStore());
