using Accession.Core.Letters;
using Accession.Core.Outcomes;
using Accession.Server.Mail;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Tests.Mail;

[Trait("Store", "sqlite")]
public sealed class KilledWhileSendingOnSqlite(StoreOnSqlite store)
    : KilledWhileSendingTests(store), IClassFixture<StoreOnSqlite>;

[Trait("Store", "postgres")]
public sealed class KilledWhileSendingOnPostgreSql(StoreOnPostgreSql store)
    : KilledWhileSendingTests(store), IClassFixture<StoreOnPostgreSql>;

/// <summary>The power goes while letters are sent: none is lost, and each kill lets at most one copy more out.</summary>
public abstract class KilledWhileSendingTests(TestStore store)
{
    private const int Count = 5;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    [Fact]
    public async Task Every_letter_arrives_once_or_once_more_under_the_same_identifier()
    {
        store.Require();
        await using var peer = new SmtpPeer();
        var ids = await WriteAsync();
        var random = new Random(20260305);

        // The worst moment: the mail server has the letter, and its yes never comes.
        var kills = 1;
        await KilledAtAsync(peer, line => line == ".");
        Assert.Single(peer.Letters);

        // And moments by chance: after so many more lines of the conversation.
        for (; kills < 4 && await WaitingAsync() > 0; kills++)
        {
            var lines = random.Next(1, 12);
            await KilledAtAsync(peer, _ => --lines == 0);
        }

        peer.Instead = (_, _) => Task.FromResult<string?>(null);
        await using (var last = await ServeAsync(peer))
        {
            // The letter is noted before its work is: killed between the two, the work would end at the next start.
            await UntilAsync(async () => await UnfinishedAsync() == 0, last);
        }

        var copies = peer.Letters.GroupBy(letter => letter.Message.MessageId).ToDictionary(g => g.Key!, g => g.ToList());
        Assert.Equal(ids.Order(), copies.Keys.Order());
        Assert.InRange(peer.Letters.Count - Count, 1, kills);
        Assert.All(copies.Values, same => Assert.Single(same.Select(letter => letter.To).Distinct()));
        await using var db = store.Open();
        Assert.Equal(Count, await db.Letters.CountAsync(letter => letter.SentAt != null && letter.RefusedAt == null));
        Assert.Equal(0, await db.Work.CountAsync(work => work.FinishedAt == null || work.Failure != null));
    }

    // From that line on the peer says nothing more, so that the process is killed just there.
    private async Task KilledAtAsync(SmtpPeer peer, Func<string, bool> isThere)
    {
        var there = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        using var killed = new CancellationTokenSource();
        peer.Instead = async (line, _) =>
        {
            if (there.Task.IsCompleted || isThere(line))
            {
                there.TrySetResult();
                try
                {
                    await Task.Delay(Timeout.InfiniteTimeSpan, killed.Token);
                }
                catch (OperationCanceledException)
                {
                    // Whoever waited for the answer is dead.
                }
            }

            return null;
        };
        await using var server = await ServeAsync(peer);
        await UntilAsync(async () => there.Task.IsCompleted || await WaitingAsync() == 0, server);
        await server.KillAsync();
        await killed.CancelAsync();
    }

    private async Task<IReadOnlyList<string>> WriteAsync()
    {
        await using var db = store.Open();
        var options = Options.Create(new MailOptions { From = "herbarium@bench.example" });
        var write = new WriteLetter(db, options);
        List<string> ids = [];
        for (var n = 1; n <= Count; n++)
        {
            var act = Act.Of(Door.System, "ask", TimeProvider.System.GetUtcNow().UtcDateTime);
            var draft = new LetterDraft($"collector{n}@collectors.example", $"Question {n}", $"Which is it, {n}?");
            var written = await db.CarryOutAsync<string>(
                Door.System, act,
                async () => (await write.WriteAsync(draft, act, CancellationToken.None)).Value.MessageId,
                CancellationToken.None);
            ids.Add(written.Value);
        }

        return ids;
    }

    private async Task<int> WaitingAsync()
    {
        await using var db = store.Open();
        return await db.Letters.CountAsync(letter => letter.SentAt == null);
    }

    private async Task<int> UnfinishedAsync()
    {
        await using var db = store.Open();
        return await db.Work.CountAsync(work => work.FinishedAt == null);
    }

    private Task<ServerProcess> ServeAsync(SmtpPeer peer) => ServerProcess.ServeAsync(
        store.Folder,
        environment: store.Settings.Concat(MailingServer.SettingsFor(peer)).Select(setting => setting.Split('=', 2))
            .ToDictionary(pair => $"ACCESSION_{pair[0].Replace(":", "__", StringComparison.Ordinal)}", pair => pair[1]));

    private static async Task UntilAsync(Func<Task<bool>> isSo, ServerProcess server)
    {
        var until = TimeProvider.System.GetUtcNow() + Patience;
        while (!await isSo())
        {
            Assert.True(TimeProvider.System.GetUtcNow() < until, server.Said);
            await Task.Delay(TimeSpan.FromMilliseconds(50));
        }
    }
}
