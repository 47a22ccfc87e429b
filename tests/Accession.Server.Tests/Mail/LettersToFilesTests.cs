using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using MimeKit;

namespace Accession.Server.Tests.Mail;

[Trait("Store", "sqlite")]
public sealed class LettersToFilesOnSqlite(ServerOnSqlite server)
    : LettersToFilesTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class LettersToFilesOnPostgreSql(ServerOnPostgreSql server)
    : LettersToFilesTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Without a mail server each letter is a file in the data folder.</summary>
public abstract class LettersToFilesTests(TestServer server)
{
    [Fact]
    public async Task A_letter_is_one_whole_file()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "to files");
        var draft = await questions.DraftAsync(3);
        Assert.Contains("No mail server is set up", draft.Text, StringComparison.Ordinal);
        await questions.SendAsync(draft);
        await questions.SendAsync(draft);
        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);

        List<MimeMessage> messages = [];
        foreach (var file in Directory.GetFiles(Path.Combine(server.Store.Folder, "mail", "out")))
        {
            Assert.EndsWith(".eml", file, StringComparison.Ordinal);
            messages.Add(await MimeMessage.LoadAsync(file, TestContext.Current.CancellationToken));
        }

        var message = Assert.Single(messages, one => one.To.Mailboxes.Single().Address == questions.Address);
        Assert.StartsWith("Please answer by ", message.TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Asked_in_another_way_there_is_no_letter_and_one_can_follow()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "by telephone");
        var asked = await curator.SubmitAsync(
            await questions.DraftAsync(3), "form[action*='handler=Ask']", press: "button[value=Ask]");
        Assert.Empty(asked.Refusals);
        Assert.Contains("without a letter", (await questions.AskedAsync(3)).Text, StringComparison.Ordinal);
        Assert.Empty(await questions.LettersAsync());

        await questions.SendAsync(await questions.DraftAsync(3, show: "&show=asked"));
        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);
    }
}
