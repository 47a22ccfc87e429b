using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Accession.Server.Tests.Mail;

[Trait("Store", "sqlite")]
public sealed class LettersOnSqlite(MailingOnSqlite server) : LettersTests(server), IClassFixture<MailingOnSqlite>;

[Trait("Store", "postgres")]
public sealed class LettersOnPostgreSql(MailingOnPostgreSql server)
    : LettersTests(server), IClassFixture<MailingOnPostgreSql>;

/// <summary>The question to a collector goes out by mail, once, whatever the mail server does.</summary>
public abstract class LettersTests(MailingServer server) : IAsyncLifetime
{
    public ValueTask InitializeAsync()
    {
        server.Peer.Letters.Clear();
        server.Peer.Heard.Clear();
        return ValueTask.CompletedTask;
    }

    public ValueTask DisposeAsync()
    {
        server.Peer.Instead = (_, _) => Task.FromResult<string?>(null);
        GC.SuppressFinalize(this);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task A_question_goes_out_once_however_often_it_is_sent()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var other = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "sent once", clashes: 2);
        var draft = await questions.DraftAsync(3);
        var theirs = await questions.DraftAsync(3, other);
        Assert.Null(draft.One("#address").GetAttribute("value"));
        var text = draft.One("#text").TextContent.Trim() + "\n\nPS. <Both> were pressed & dry.";

        // Pressed twice at once, sent again by the browser, and written by somebody else meanwhile.
        var answers = await Task.WhenAll(
            questions.SendAsync(draft, text: text), questions.SendAsync(draft, text: text),
            questions.SendAsync(theirs, other));
        var again = await questions.SendAsync(draft, text: text);
        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);

        Assert.Contains(answers, answer => answer.Status == HttpStatusCode.Found);
        Assert.Equal(answers[0].Status, answers[1].Status);
        Assert.Equal(answers[0].Status, again.Status);
        Assert.NotEqual(answers[0].Status, answers[2].Status);
        Assert.Single(server.Peer.Letters);
        Assert.Empty(await Pile.VerifyAsync(server));

        // What stands with the row, and that it cannot be asked again.
        var asked = await questions.AskedAsync(3);
        Assert.Contains("by Test Curator: sent ", asked.One("section[aria-labelledby=letters]").TextContent,
            StringComparison.Ordinal);
        Assert.Contains("Test Curator", asked.One("section[aria-labelledby=asked] tbody tr").TextContent,
            StringComparison.Ordinal);
        Assert.Empty(asked.All("a[data-key=a]"));
        var late = await questions.SendAsync(theirs, other);
        Assert.True(answers[2].Status == HttpStatusCode.Found || late.Status == HttpStatusCode.Conflict, late.Text);

        // The address is remembered for the source.
        Assert.Equal(questions.Address, (await questions.DraftAsync(5)).One("#address").GetAttribute("value"));
    }

    [Fact]
    public async Task A_letter_is_whole()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "whole");
        var draft = await questions.DraftAsync(3);
        var text = draft.One("#text").TextContent.Trim() + "\n\nPS. <Both> were pressed & dry.";
        await questions.SendAsync(draft, text: text);
        var letter = Assert.Single(await questions.UntilAsync(letters => letters is [{ SentAt: not null }]));

        var (to, message) = Assert.Single(server.Peer.Letters);
        Assert.Equal((questions.Address, questions.Address), (to, message.To.Mailboxes.Single().Address));
        Assert.Equal(
            ("herbarium@bench.example", "Herbarium of the Test Bench"),
            (message.From.Mailboxes.Single().Address, message.From.Mailboxes.Single().Name));
        Assert.Equal("desk@bench.example", message.ReplyTo.Mailboxes.Single().Address);
        Assert.Equal("auto-generated", message.Headers["Auto-Submitted"]);
        Assert.Equal("Question about your number 801", message.Subject);
        Assert.Equal(
            await server.InRegisterAsync(db => db.Letters.Where(l => l.Id == letter.Id).Select(l => l.MessageId).SingleAsync()),
            message.MessageId);
        Assert.StartsWith("Please answer by ", message.TextBody, StringComparison.Ordinal);
        Assert.Equal(text, message.TextBody!.ReplaceLineEndings("\n").TrimEnd());
        Assert.Contains("&lt;Both&gt; were pressed &amp; dry.", message.HtmlBody, StringComparison.Ordinal);
        Assert.Contains("your list: 2 May 2011", message.HtmlBody, StringComparison.Ordinal);
        Assert.Contains(server.Peer.Heard, line => line.StartsWith("AUTH PLAIN", StringComparison.Ordinal));
    }

    [Fact]
    public async Task One_refused_address_stops_no_other_letter_and_is_asked_again_elsewhere()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "refused", clashes: 2);
        server.Peer.Instead = (line, _) => Task.FromResult(
            line.StartsWith("RCPT", StringComparison.Ordinal) && line.Contains("gone@", StringComparison.Ordinal)
                ? "550 5.1.1 <gone@collectors.example> has moved away"
                : null);
        await questions.AskAsync(3, "gone@collectors.example");
        await questions.AskAsync(5);
        var letters = await questions.UntilAsync(letters => letters is [{ Waits: false }, { Waits: false }]);

        Assert.NotNull(letters[1].SentAt);
        Assert.Equal(
            "The mail server refused it: 550 5.1.1 <that address> has moved away", letters[0].RefusedBecause);
        Assert.Equal(questions.Address, Assert.Single(server.Peer.Letters).To);
        Assert.Contains("has moved away", (await questions.AskedAsync(3)).Text, StringComparison.Ordinal);
        Assert.Contains("letters were refused", (await curator.GetPageAsync("/")).Text, StringComparison.Ordinal);

        var again = await questions.SendAsync(
            await questions.DraftAsync(3, show: "&show=asked"), address: "new@collectors.example");
        Assert.Empty(again.Refusals);
        await questions.UntilAsync(all => all.Count == 3 && all[2].SentAt is not null);
        Assert.Equal("new@collectors.example", server.Peer.Letters.Last().To);
        Assert.DoesNotContain("letters were refused", (await curator.GetPageAsync("/")).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task A_mail_server_that_is_down_is_tried_again_and_the_page_says_so()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var administrator = await server.SignInAsync(Role.Administrator);
        var questions = await Questions.OfAsync(server, curator, "down");
        await server.Peer.GoDownAsync();
        try
        {
            await questions.AskAsync(3);
            await questions.UntilAsync(letters => letters is [{ Trouble: not null }]);
            Assert.Contains("cannot be reached; see Mail:Host and Mail:Port. It is tried again after",
                (await questions.AskedAsync(3)).Text, StringComparison.Ordinal);
            var mail = await administrator.GetPageAsync("/mail");
            Assert.Contains("cannot be reached", mail.Text, StringComparison.Ordinal);
            Assert.DoesNotContain(questions.Address, mail.Source, StringComparison.Ordinal);
        }
        finally
        {
            server.Peer.ComeUp();
        }

        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);
        Assert.Equal(questions.Address, Assert.Single(server.Peer.Letters).To);
        await server.WaitForWorkAsync();
    }

    [Fact]
    public async Task A_mail_server_that_is_slow_is_left_after_the_time_limit()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "slow");
        server.Peer.Instead = async (line, cancellation) =>
        {
            if (line.StartsWith("MAIL", StringComparison.Ordinal))
            {
                await Task.Delay(TimeSpan.FromSeconds(30), cancellation);
            }

            return null;
        };
        await questions.AskAsync(3);
        var letter = Assert.Single(await questions.UntilAsync(letters => letters is [{ Trouble: not null }]));
        Assert.Equal("The mail server was not done within 3 seconds.", letter.Trouble);

        server.Peer.Instead = (_, _) => Task.FromResult<string?>(null);
        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);
        Assert.Single(server.Peer.Letters);
    }

    [Fact]
    public async Task A_letter_is_not_recalled_and_the_answer_is_kept_with_the_decision()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "recalled");
        await questions.AskAsync(3);
        var page = await curator.GetPageAsync(questions.Findings);
        var back = await curator.SubmitAsync(page, "form[action$='handler=Reopen']");
        Assert.Contains("is not recalled", (await curator.FollowAsync(back)).Source, StringComparison.Ordinal);
        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);

        await questions.AskAsync(3);
        await questions.UntilAsync(letters => letters is [_, { SentAt: not null }]);
        Assert.Equal(2, server.Peer.Letters.Select(letter => letter.Message.MessageId).Distinct().Count());

        var answered = await curator.SubmitAsync(
            await questions.AskedAsync(3), "main form.form", [("reason", "Wrote that the ridge is right.")],
            press: "button[value=Keep]");
        Assert.Empty(answered.Refusals);
        Assert.Equal(1, await server.InRegisterAsync(
            db => db.Decisions.CountAsync(d => d.Act.Reason == "Wrote that the ridge is right.")));
    }

    [Fact]
    public async Task An_address_stands_in_no_export_and_on_no_page_of_others()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("exported");
        var pile = await Pile.TakeInAsync(server, curator, Questions.Heading
            + $"J. R. {name},812,1991-06-14,Oregon,Harney,Sage flat,43.58,-119.05,Poa secunda J.Presl,2\n"
            + $"J. R. {name},812,2011-05-02,Nevada,Elko,Spruce ridge,41.2,-115.3,Poa secunda J.Presl,1\n");
        var questions = new Questions(server, curator, pile.BatchPath, name);
        await questions.AskAsync(3);
        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);
        Assert.Contains(questions.Address, (await questions.AskedAsync(3)).Source, StringComparison.Ordinal);

        var archive = await curator.GetPageAsync("/archive");
        await curator.SubmitAsync(archive, "main form");
        await server.WaitForWorkAsync();
        var built = (await curator.GetPageAsync("/archive")).All("a[href$='.zip']")[0].GetAttribute("href")!;
        await using var zip = new System.IO.Compression.ZipArchive(
            new MemoryStream(await curator.Http.GetByteArrayAsync(new Uri(server.Address, built))));
        Assert.NotEmpty(zip.Entries);
        foreach (var entry in zip.Entries)
        {
            using var reader = new StreamReader(await entry.OpenAsync());
            Assert.DoesNotContain(questions.Address, await reader.ReadToEndAsync(), StringComparison.OrdinalIgnoreCase);
        }

        var problems = await curator.GetPageAsync($"{pile.BatchPath}/problems.csv");
        Assert.DoesNotContain(questions.Address, problems.Source, StringComparison.OrdinalIgnoreCase);
        foreach (var role in new[] { Role.Technician, Role.Administrator })
        {
            using var other = await server.SignInAsync(role);
            foreach (var path in new[] { "/", "/mail", "/specimens", $"/accession/{pile.Accession}", questions.Findings })
            {
                Assert.DoesNotContain(
                    questions.Address, (await other.GetPageAsync(path)).Source, StringComparison.OrdinalIgnoreCase);
            }
        }
    }

    [Fact]
    public async Task What_is_wrong_with_a_letter_is_said_and_what_was_written_stands_there_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var questions = await Questions.OfAsync(server, curator, "wrong");
        var refused = await questions.SendAsync(await questions.DraftAsync(3), address: "nobody", text: "Which?");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("not one mail address", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal("Which?", refused.One("#text").TextContent.Trim());
        Assert.Empty(await questions.LettersAsync());
        Assert.Contains("1 open", (await curator.GetPageAsync(questions.Findings)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Held_mail_waits_until_an_administrator_lets_it_go()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var administrator = await server.SignInAsync(Role.Administrator);
        var held = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/mail"), "form[action$='handler=Hold']", [("why", "The register was restored.")]);
        Assert.Empty(held.Refusals);
        var questions = await Questions.OfAsync(server, curator, "held");
        await questions.AskAsync(3);

        Assert.Contains("an administrator holds all mail", (await questions.AskedAsync(3)).Text, StringComparison.Ordinal);
        await questions.UntilAsync(letters => letters is [{ Waits: true }]);
        var letter = Assert.Single(await questions.LettersAsync());
        await Questions.UntilAsync(
            () => server.InRegisterAsync(db => db.Work.Where(work => work.Subject == letter.Id && work.NotBefore != null
                && work.Kind == "send a letter").ToListAsync()), works => works.Count == 1);
        Assert.Empty(server.Peer.Letters);
        Assert.Contains("Let the mail go", (await administrator.GetPageAsync("/")).Text, StringComparison.Ordinal);
        var page = await administrator.GetPageAsync("/mail");
        Assert.Contains("The register was restored.", page.Text, StringComparison.Ordinal);
        Assert.Contains("Question about your number 801", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(questions.Address, page.Source, StringComparison.Ordinal);

        var released = await administrator.SubmitAsync(page, "form[action$='handler=Release']");
        Assert.Empty(released.Refusals);
        await questions.UntilAsync(letters => letters is [{ SentAt: not null }]);
        Assert.Single(server.Peer.Letters);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Neither_letter_nor_log_has_a_protected_place_and_the_log_has_no_password_or_address()
    {
        using var said = new Listener();
        server.App.Services.GetRequiredService<ILoggerFactory>().AddProvider(said);
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("protected");
        var pile = await Pile.TakeInAsync(server, curator, Questions.Heading
            + $"J. R. {name},812,2024-06-14,Oregon,Harney,Zephyrine Gulch,43.58642,-119.05417,Poa secunda J.Presl,1\n");
        var protect = await curator.SubmitAsync(
            await curator.GetPageAsync($"/gathering/{pile.Gatherings[0]}/protection"), "form.form",
            [("Category", "Extreme"), ("ReviewOn", "2030-01-01"), ("Reason", "collectors dig it up")]);
        Assert.Empty(protect.Refusals);
        var batch = await Bench.ReceiveAsync(server, curator, $"Clash {name}", "c.csv", System.Text.Encoding.UTF8.GetBytes(
            Questions.Heading + $"J. R. {name},812,2019-05-02,Nevada,Elko,Spruce ridge,41.2,-115.3,Poa secunda J.Presl,1\n"));
        var questions = new Questions(server, curator, batch.Address.AbsolutePath, name);
        var draft = await questions.DraftAsync(2);
        var text = draft.One("#text").TextContent;
        Assert.Contains("the other: 14 Jun 2024", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Place", text, StringComparison.Ordinal);
        server.Peer.Instead = (line, _) => Task.FromResult(
            line.StartsWith("RCPT", StringComparison.Ordinal) ? $"550 {line[8..]} is nobody here" : null);
        await questions.SendAsync(draft);
        await questions.UntilAsync(letters => letters is [{ RefusedAt: not null }]);
        server.Peer.Instead = (_, _) => Task.FromResult<string?>(null);
        await questions.SendAsync(await questions.DraftAsync(2, show: "&show=asked"));
        await questions.UntilAsync(letters => letters is [_, { SentAt: not null }]);

        var letter = Assert.Single(server.Peer.Letters).Message;
        string[] secrets = ["Zephyrine", "58642", "05417", " apart", "coordinates"];
        Assert.All(secrets, secret => Assert.DoesNotContain(
            secret, letter.Subject + letter.TextBody + letter.HtmlBody, StringComparison.Ordinal));
        Assert.Contains(said.Lines, line => line.Contains("INSERT INTO", StringComparison.Ordinal));
        Assert.Contains(said.Lines, line => line.Contains("was not sent: The mail server refused it", StringComparison.Ordinal));
        var encoded = Convert.ToBase64String(System.Text.Encoding.UTF8.GetBytes($"\0bench\0{MailingServer.Password}"));
        Assert.All(
            [.. secrets[..3], MailingServer.Password, encoded, questions.Address],
            secret => Assert.DoesNotContain(said.Lines, line => line.Contains(secret, StringComparison.OrdinalIgnoreCase)));
        var acts = await server.InRegisterAsync(db => db.Acts.Select(act => act.What + act.Reason + act.Answer).ToListAsync());
        Assert.DoesNotContain(acts, act => act.Contains(questions.Address, StringComparison.OrdinalIgnoreCase));
    }
}
