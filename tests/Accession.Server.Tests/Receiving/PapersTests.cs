using System.Net;
using System.Security.Cryptography;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

/// <summary>Papers are kept up to 1 MB here.</summary>
public sealed class SmallPapersOnSqlite() : TestServer(new SqliteTestStore())
{
    protected override IReadOnlyList<string> Set => ["Receiving:MaximumPaperMegabytes=1"];
}

/// <summary>Papers are kept up to 1 MB here.</summary>
public sealed class SmallPapersOnPostgreSql() : TestServer(new PostgreSqlTestStore())
{
    protected override IReadOnlyList<string> Set => ["Receiving:MaximumPaperMegabytes=1"];
}

[Trait("Store", "sqlite")]
public sealed class PapersOnSqlite(SmallPapersOnSqlite server) : PapersTests(server), IClassFixture<SmallPapersOnSqlite>;

[Trait("Store", "postgres")]
public sealed class PapersOnPostgreSql(SmallPapersOnPostgreSql server)
    : PapersTests(server), IClassFixture<SmallPapersOnPostgreSql>;

/// <summary>The papers of a batch: kept, handed out, set aside, and refused. The papers are invented.</summary>
public abstract class PapersTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,County,Locality,Species,Sheets
        Orla Finch,811,2024-05-14,Harney,Dry wash,Poa secunda J.Presl,1
        """;

    private static readonly byte[] Deed = Encoding.UTF8.GetBytes("%PDF-1.7\n% An invented deed of gift.\n%%EOF\n");

    [Fact]
    public async Task A_paper_is_kept_shown_with_batch_and_accession_and_handed_out_as_it_came()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(List, "kept"));
        var kept = await curator.FollowAsync(await KeepAsync(
            curator, pile.BatchPath, "C:\\scans\\Deed \u00FCber Ranch;1.pdf", Deed, "DeedOfGift", "signed by both"));
        Assert.Contains("is kept with batch", kept.Source, StringComparison.Ordinal);

        var batch = (await curator.GetPageAsync(pile.BatchPath)).One("#papers").TextContent;
        Assert.Contains("Deed \u00FCber", batch, StringComparison.Ordinal);
        Assert.Contains("Deed of gift, PDF", batch, StringComparison.Ordinal);
        Assert.Contains("signed by both", batch, StringComparison.Ordinal);
        var accession = await curator.GetPageAsync($"/accession/{pile.Accession}");
        var address = accession.One("#papers a[download]").GetAttribute("href")!;

        using var answer = await curator.Http.GetAsync(new Uri(server.Address, address));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(Deed, await answer.Content.ReadAsByteArrayAsync());
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        var disposition = answer.Content.Headers.GetValues("Content-Disposition").Single();
        Assert.StartsWith("attachment;", disposition, StringComparison.Ordinal);
        Assert.Contains("filename*=UTF-8''Deed%20%C3%BCber%20Ranch%3B1.pdf", disposition, StringComparison.Ordinal);
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Contains("sandbox", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);

        // Whoever may not see exact places sees neither the paper nor its name.
        using var technician = await server.SignInAsync(Role.Technician);
        var seen = await technician.GetPageAsync($"/accession/{pile.Accession}");
        Assert.Equal(HttpStatusCode.OK, seen.Status);
        Assert.DoesNotContain("Ranch", seen.Source, StringComparison.Ordinal);
        Assert.Equal("/not-yours", (await technician.GetPageAsync(address)).Location?.Split('?')[0].Replace(
            server.Address.GetLeftPart(UriPartial.Authority), "", StringComparison.Ordinal));
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task What_it_is_stands_in_the_content_and_not_in_the_name()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var path = await BatchAsync(curator, "content");
        (byte[] Bytes, string Says)[] wrong =
        [
            ([.. "MZ"u8, 0x90, 0, 3, 0, 0, 0], "a Windows program"),
            ([0x7F, .. "ELF"u8, 2, 1, 1, 0], "a Linux program"),
            ([.. "PK"u8, 3, 4, 20, 0, 0, 0], "a zip archive"),
            ("#!/bin/sh\necho deed\n"u8.ToArray(), "a script"),
            ("<!DOCTYPE html><title>deed</title>"u8.ToArray(), "a web page"),
            ([], "empty"),
        ];
        foreach (var (bytes, says) in wrong)
        {
            var answer = await KeepAsync(curator, path, "deed.pdf", bytes, "DeedOfGift", "as sent");
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
            Assert.Contains(says, Assert.Single(answer.Refusals), StringComparison.Ordinal);
            // What was chosen and typed stands there again.
            Assert.Equal("as sent", answer.One("#Remark").TextContent.Trim());
        }

        Assert.Empty(await PapersOf(path));
        Assert.Empty(Directory.GetFiles(Folder, "*.part"));

        // A picture that is called a program is a picture, and is saved as one.
        var picture = Convert.FromHexString("89504E470D0A1A0A0000000D49484452");
        Assert.Empty((await KeepAsync(curator, path, "deed.exe", picture, "Other", "a photograph")).Refusals);
        using var saved = await curator.Http.GetAsync(new Uri(server.Address,
            (await curator.GetPageAsync(path)).One("#papers a[download]").GetAttribute("href")));
        Assert.Equal("deed.exe.png", saved.Content.Headers.ContentDisposition!.FileName?.Trim('"'));
        Assert.Equal("image/png", saved.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task The_same_file_twice_is_there_already_and_counts_again_when_it_was_set_aside()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var path = await BatchAsync(curator, "twice");
        var bytes = Encoding.UTF8.GetBytes($"List of 57 sheets. {Guid.NewGuid()}");
        var page = await curator.GetPageAsync($"{path}/papers");
        async Task<Page> SendAsync() => await curator.SubmitAsync(
            page, "#keep", [("Kind", "Transmittal"), ("RequestKey", $"{Guid.NewGuid()}")], [new("file", "list.txt", bytes)]);
        var answers = await Task.WhenAll(SendAsync(), SendAsync());
        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Found);
        var refused = answers.Single(answer => answer.Status == HttpStatusCode.Conflict);
        Assert.True(
            Assert.Single(refused.Refusals).Contains("there already: list.txt, kept by Test Curator", StringComparison.Ordinal)
            || refused.Refusals[0].Contains("look again", StringComparison.Ordinal), refused.Refusals[0]);
        Assert.Contains("there already", Assert.Single((await SendAsync()).Refusals), StringComparison.Ordinal);

        // Two set it aside at once: one of them does.
        var shown = await curator.GetPageAsync($"{path}/papers");
        async Task<Page> AsideAsync(string why) => await curator.SubmitAsync(
            shown, "form[action$='handler=SetAside']", [("reason", why), ("RequestKey", $"{Guid.NewGuid()}")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await AsideAsync(" ")).Status);
        var aside = await Task.WhenAll(AsideAsync("wrong parcel"), AsideAsync("wrong parcel"));
        Assert.Single(aside, answer => answer.Status == HttpStatusCode.Found);
        Assert.Single(aside, answer => answer.Status == HttpStatusCode.Conflict);

        var after = await curator.GetPageAsync(path);
        Assert.Contains("Set aside", after.One("#papers").TextContent, StringComparison.Ordinal);
        Assert.Contains("wrong parcel", after.One("#papers").TextContent, StringComparison.Ordinal);
        using var still = await curator.Http.GetAsync(
            new Uri(server.Address, after.One("#papers a[download]").GetAttribute("href")));
        Assert.Equal(bytes, await still.Content.ReadAsByteArrayAsync());
        Assert.Equal(HttpStatusCode.Found, (await SendAsync()).Status);
        Assert.Equal(2, (await PapersOf(path)).Count);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Five_hundred_megabytes_are_refused_before_they_are_read_and_while_they_come()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var path = await BatchAsync(curator, "large");
        var page = await curator.GetPageAsync($"{path}/papers");

        // Just above the limit: read, measured, refused in a sentence.
        var refused = await curator.SubmitAsync(page, "#keep", [("Kind", "Letter")],
            [new("file", "letter.txt", Encoding.UTF8.GetBytes(new string('x', 1024 * 1024 + 1)))]);
        Assert.Contains("larger than 1 MB", Assert.Single(refused.Refusals), StringComparison.Ordinal);

        // Announced: refused without a byte. Streamed: refused when too much came.
        foreach (var announced in new[] { true, false })
        {
            using var body = new EndlessForm(500L * 1024 * 1024, announced);
            using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(server.Address, $"{path}/papers"))
            {
                Content = body,
            };
            request.Headers.ExpectContinue = announced;
            try
            {
                using var answer = await curator.Http.SendAsync(request, TestContext.Current.CancellationToken);
                Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
                var said = await Page.ReadAsync(answer);
                Assert.Contains("up to 1 MB as papers", said.Text, StringComparison.Ordinal);
            }
            catch (HttpRequestException)
            {
                // The line was cut while the client was still sending.
            }

            Assert.InRange(body.Sent, 0, 50L * 1024 * 1024);
        }

        Assert.Empty(await PapersOf(path));
        Assert.Empty(Directory.GetFiles(Folder, "*.part"));
    }

    [Fact]
    public async Task A_paper_for_a_batch_that_is_not_there_leaves_nothing()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync($"{await BatchAsync(curator, "nowhere")}/papers");
        page.Form("#keep").SetAttribute("action", "/batch/999999/papers");
        var bytes = Encoding.UTF8.GetBytes($"Nowhere {Guid.NewGuid()}");
        var answer = await curator.SubmitAsync(page, "#keep", [("Kind", "Letter")], [new("file", "a.txt", bytes)]);
        Assert.Equal(HttpStatusCode.NotFound, answer.Status);
        Assert.False(File.Exists(Path.Combine(Folder, Convert.ToHexStringLower(SHA256.HashData(bytes)))));
    }

    private string Folder => Directory.CreateDirectory(Path.Combine(server.Store.Folder, "papers")).FullName;

    private static async Task<Page> KeepAsync(
        Visitor curator, string path, string name, byte[] bytes, string kind, string remark) =>
        await curator.SubmitAsync(
            await curator.GetPageAsync($"{path}/papers"), "#keep", [("Kind", kind), ("Remark", remark)],
            [new("file", name, bytes)]);

    private async Task<string> BatchAsync(Visitor curator, string of) => (await Bench.ReceiveAsync(
        server, curator, $"Papers {of}", "list.csv",
        Encoding.UTF8.GetBytes(InventedNames.OfAnother(List, of)))).Address.AbsolutePath;

    private Task<List<string>> PapersOf(string path)
    {
        var id = long.Parse(path.Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture);
        return server.InRegisterAsync(db => db.Papers.Where(p => p.BatchId == id).Select(p => p.FileName).ToListAsync());
    }

    /// <summary>A form with one large file, made while it is sent and never held.</summary>
    private sealed class EndlessForm : HttpContent
    {
        private readonly long _bytes;
        private readonly bool _announced;

        public EndlessForm(long bytes, bool announced)
        {
            (_bytes, _announced) = (bytes, announced);
            Headers.TryAddWithoutValidation("Content-Type", "multipart/form-data; boundary=cut");
        }

        public long Sent { get; private set; }

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            var head = "--cut\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.txt\"\r\n\r\n"u8.ToArray();
            var piece = new byte[1 << 16];
            Array.Fill(piece, (byte)'x');
            await stream.WriteAsync(head);
            for (; Sent < _bytes; Sent += piece.Length)
            {
                await stream.WriteAsync(piece);
                await stream.FlushAsync();
            }
        }

        protected override bool TryComputeLength(out long length)
        {
            length = _bytes;
            return _announced;
        }
    }
}
