using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Mail;
using Accession.Server.Tests.Numbering;
using Accession.Server.Tests.Tracking;
using Accession.Storage;
using Accession.Storage.Work;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class BackupOnSqlite(ServerOnSqlite server) : BackupTests(server), IClassFixture<ServerOnSqlite>
{
    protected override TestStore Empty() => new SqliteTestStore();
}

[Trait("Store", "postgres")]
public sealed class BackupOnPostgreSql(ServerOnPostgreSql server)
    : BackupTests(server), IClassFixture<ServerOnPostgreSql>
{
    protected override TestStore Empty() => new PostgreSqlTestStore();
}

/// <summary>A backup while people number sheets, and the register that is restored from it.</summary>
public abstract class BackupTests(TestServer server) : IDisposable
{
    private const int People = 4;

    private readonly string _files = Directory.CreateTempSubdirectory("accession-backup-").FullName;

    // Whatever the restore itself does not change is to be as it was, row by row.
    private static readonly string[] AsTheyWere =
    [
        "source", "batch", "received_list", "batch_row", "row_problem", "accession", "gathering", "specimen", "part",
        "determination", "custody_entry", "step_entry", "exact_locality", "locality_protection", "roll",
        "asp_net_roles", "asp_net_user_roles", "letter", "set_aside", "told_apart", "decision_entry", "voided_numbers",
        "paper", "permit", "batch_closing", "checked_sheets", "person", "person_spelling", "person_years",
        "person_habit", "person_merge",
    ];

    [Fact]
    public async Task A_backup_while_people_number_is_of_one_moment_and_the_paper_of_later_is_not_issued_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List(People * 4));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.NextAsync(pile.Gatherings[0]);
        var file = Path.Combine(_files, "while.backup");

        var numbering = Task.WhenAll(Enumerable.Range(0, People).Select(person => Task.Run(async () =>
        {
            using var own = new Scanner(await server.SignInAsync(Role.Technician), pile);
            for (var i = 0; i < 12; i++)
            {
                await own.NextAsync(pile.Gatherings[(person + i) % pile.Gatherings.Count]);
            }
        })));
        var (exit, said) = await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(server.Store)]);
        await numbering;
        Assert.True(exit == 0, said);
        await scanner.NextAsync(pile.Gatherings[0]);
        var onPaper = await server.InRegisterAsync(db => db.Specimens.Where(s => s.SeriesId == pile.SeriesId)
            .OrderBy(s => s.Number).Select(s => s.CatalogNumber).ToListAsync());

        await using var restored = new RestoredServer(Empty(), file);
        await restored.InitializeAsync();
        Assert.Empty(await Pile.VerifyAsync(restored));
        var known = await restored.InRegisterAsync(db => db.Specimens.Where(s => s.SeriesId == pile.SeriesId)
            .OrderBy(s => s.Number).Select(s => s.CatalogNumber).ToListAsync());
        Assert.InRange(known.Count, 1, onPaper.Count - 1);
        Assert.Empty(known.Except(onPaper));

        using var administrator = restored.Stranger();
        var come = await administrator.ComeInAsync(await restored.LinkAsync(Role.Administrator));
        Assert.Equal(HttpStatusCode.Found, come.Status);
        using var again = new Scanner(await restored.SignInAsync(Role.Technician), pile);
        Assert.Equal(HttpStatusCode.Conflict, (await again.NextAsync(pile.Gatherings[0])).Status);
        var opened = await administrator.FollowAsync(await administrator.SubmitAsync(
            await administrator.GetPageAsync("/series"),
            $"form[action$='handler=Open']:has(input[name=series][value='{pile.SeriesId}'])",
            [("paperHighest", onPaper[^1])]));
        Assert.Contains("before the restore of", opened.Text, StringComparison.Ordinal);

        // Each sheet that bears a number of the days that were lost is scanned; the counter gives none of them.
        foreach (var code in onPaper.Except(known))
        {
            Assert.Equal(HttpStatusCode.OK, (await again.ScanAsync(code, pile.Gatherings[0])).Status);
        }

        var next = (await again.NextAsync(pile.Gatherings[0])).One("li.scan .code").TextContent;
        Assert.DoesNotContain(next, onPaper);
        Assert.Empty(await Pile.VerifyAsync(restored));
    }

    [Fact]
    public async Task What_is_restored_is_what_was_backed_up()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List(3));
        using (var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile))
        {
            await scanner.NextAsync(pile.Gatherings[0]);
        }

        await curator.SubmitAsync(await curator.GetPageAsync($"/gathering/{pile.Gatherings[0]}/protection"), "form.form",
            [("Category", "High"), ("ReviewOn", "2030-01-01"), ("Reason", "rare")]);
        await WithPapersAsync(curator, pile);
        await WithPersonsAsync(curator);
        var link = await server.LinkAsync(Role.Curator);
        (await server.SignInAsync(Role.Administrator)).Dispose();
        var (archive, reading) = await server.InRegisterAsync(WorkAsync);
        var file = Path.Combine(_files, "still.backup");
        var (exit, said) = await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(server.Store)]);
        Assert.True(exit == 0, said);
        Assert.Contains("exact places", said, StringComparison.Ordinal);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, ModeOf(file));
        await server.InRegisterAsync(db => db.Work.Where(w => w.Id == archive || w.Id == reading).ExecuteDeleteAsync());
        var before = await server.InRegisterAsync(ContentsAsync);
        Assert.Equal(HttpStatusCode.OK, (await curator.GetPageAsync("/batches")).Status);

        await using var restored = new RestoredServer(Empty(), file);
        await restored.InitializeAsync();
        Assert.Equal(before, await restored.InRegisterAsync(ContentsAsync));
        Assert.Equal(Lists(server.Store.Folder), Lists(restored.Store.Folder));
        Assert.Single(Lists(restored.Store.Folder, "papers"));
        Assert.Equal(Lists(server.Store.Folder, "papers"), Lists(restored.Store.Folder, "papers"));
        Assert.Equal(
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
            ModeOf(restored.Store.Folder));
        Assert.Empty(await Pile.VerifyAsync(restored));
        var act = await restored.InRegisterAsync(db => db.Acts.SingleAsync(a => a.What == "restore the register"));
        Assert.Contains("from the backup of", act.Reason, StringComparison.Ordinal);
        Assert.True(await restored.InRegisterAsync(db => db.Series.AllAsync(s => s.ClosedAs != null)));

        // Neither the link that nobody used nor the session that was open opens anything now.
        using var before2 = new Visitor(restored.Address, curator.SessionCookie);
        Assert.Equal(HttpStatusCode.Found, (await before2.GetPageAsync("/batches")).Status);
        using var late = restored.Stranger();
        Assert.Equal(HttpStatusCode.Gone, (await late.ComeInAsync(link)).Status);
        using var first = restored.Stranger();
        var printed = await first.FollowAsync(await first.ComeInAsync(PrintedLink(restored.Said)));
        Assert.Equal(HttpStatusCode.OK, printed.Status);

        Assert.True(await restored.InRegisterAsync(db => db.Work.AnyAsync(w => w.Id == archive && w.StoppedAt != null
            && w.StopActId == act.Id && w.FinishedAt == null)));
        Assert.True(await restored.InRegisterAsync(db => db.Work.AnyAsync(w => w.Id == reading && w.StoppedAt == null)));
    }

    [Fact]
    public async Task A_letter_that_waited_in_the_backup_leaves_only_when_an_administrator_lets_the_mail_go()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        using var administrator = await server.SignInAsync(Role.Administrator);
        await administrator.SubmitAsync(
            await administrator.GetPageAsync("/mail"), "form[action$='handler=Hold']", [("why", "The disk is worn.")]);
        var questions = await Questions.OfAsync(server, curator, "restored");
        await questions.AskAsync(3);
        var file = Path.Combine(_files, "letter.backup");
        var (exit, said) = await ServerProcess.RunAsync(["backup", file, .. RestoredServer.Lead(server.Store)]);
        Assert.True(exit == 0, said);

        // It leaves after the backup was made, and the restored register knows nothing of that.
        await administrator.SubmitAsync(
            await administrator.GetPageAsync("/mail"), "form[action$='handler=Release']");
        var sent = Assert.Single(await questions.UntilAsync(letters => letters is [{ SentAt: not null }]));

        await using var restored = new RestoredServer(Empty(), file);
        await restored.InitializeAsync();
        using var again = await restored.SignInAsync(Role.Administrator);
        var page = await again.GetPageAsync("/mail");
        Assert.Contains("the register was restored", page.Text, StringComparison.Ordinal);
        Assert.Contains("Question about your number 801", page.Text, StringComparison.Ordinal);
        Assert.Empty(OutOf(restored));
        Assert.Empty((await again.SubmitAsync(page, "form[action$='handler=Release']")).Refusals);
        var late = await Questions.UntilAsync(
            () => restored.InRegisterAsync(db => db.Letters.Where(letter => letter.SentAt != null).ToListAsync()),
            letters => letters.Count == 1);
        Assert.Single(OutOf(restored));
        Assert.Equal(Assert.Single(OutOf(server)), Assert.Single(OutOf(restored)));
        var released = await restored.InRegisterAsync(
            db => db.MailHolds.OrderBy(hold => hold.Id).Select(hold => hold.ReleasedAct!.At).ToListAsync());
        Assert.Equal(2, released.Count);   // the hold of before, and that of the restore
        Assert.All(released, at => Assert.True(at <= late[0].SentAt));
        Assert.True(sent.SentAt < late[0].SentAt);
    }

    public void Dispose()
    {
        Directory.Delete(_files, recursive: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>A store on the same database, with nothing in it.</summary>
    protected abstract TestStore Empty();

    // Both are held by somebody who is far away, so that this server runs neither.
    private static async Task<(long Archive, long Reading)> WorkAsync(AccessionDb db)
    {
        var act = Act.Of(Door.System, "want work", TimeProvider.System.GetUtcNow().UtcDateTime);
        var batch = await db.Batches.MinAsync(b => b.Id);
        WorkRow[] rows = [WorkRow.Wanted("build the archive", 0, act), WorkRow.Wanted("read rows again", batch, act)];
        db.AddRange(rows.Cast<object>());
        await db.SaveChangesAsync();
        var until = act.At.AddHours(1);
        await db.Work.Where(w => w.ActId == act.Id).ExecuteUpdateAsync(
            row => row.SetProperty(w => w.Owner, "1/afar/elsewhere").SetProperty(w => w.LeaseUntil, until));
        return (rows[0].Id, rows[1].Id);
    }

    private static async Task<List<string>> ContentsAsync(AccessionDb db)
    {
        List<string> rows = [];
        await db.Database.OpenConnectionAsync();
        foreach (var table in AsTheyWere)
        {
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = $"SELECT * FROM {table}";
            await using var found = await command.ExecuteReaderAsync();
            List<string> own = [];
            while (await found.ReadAsync())
            {
                var cells = Enumerable.Range(0, found.FieldCount).Select(i => found.GetValue(i));
                own.Add($"{table}: {string.Join('|', cells)}");
            }

            rows.AddRange(own.Order(StringComparer.Ordinal));
        }

        Assert.True(rows.Count > 20);
        return rows;
    }

    // A letter in a file is named by its Message-ID.
    private static List<string> OutOf(TestServer of)
    {
        var folder = Path.Combine(of.Store.Folder, "mail", "out");
        return Directory.Exists(folder) ? [.. Directory.GetFiles(folder).Select(file => Path.GetFileName(file))] : [];
    }

    // A paper, a permit, and the batch closed with sheets that are missing.
    // Two on record who were merged, with years and a way of numbering.
    private static async Task WithPersonsAsync(Visitor curator)
    {
        var one = await CollectorsAtHand.OnRecordAsync(curator, "Ada Backup one");
        var two = await CollectorsAtHand.OnRecordAsync(curator, "Ada Backup two");
        Assert.Empty((await CollectorsAtHand.StateYearsAsync(curator, one, "1925", "1960")).Refusals);
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync(one), "form[action$='handler=Habit']",
            [("habit", "OneRun"), ("how", "told by phone")])).Refusals);
        Assert.Empty((await curator.SubmitAsync(
            await curator.GetPageAsync($"{one}?Family=Backup"), "form[action$='handler=Merge']",
            [("other", two.Split('/')[^1]), ("how", "one hand")])).Refusals);
    }

    private async Task WithPapersAsync(Visitor curator, Pile pile)
    {
        var papers = await curator.GetPageAsync($"{pile.BatchPath}/papers");
        Assert.Empty((await curator.SubmitAsync(papers, "#keep", [("Kind", "Letter")],
            [new("file", "letter.txt", "An invented letter."u8.ToArray())])).Refusals);
        var permits = await curator.GetPageAsync($"{pile.BatchPath}/permits");
        Assert.Empty((await curator.SubmitAsync(
            permits, "#write", [("Kind", "Landowner"), ("Issuer", "The Kellings")])).Refusals);
        await server.WaitForWorkAsync();
        var closing = await curator.GetPageAsync($"{pile.BatchPath}/closing");
        Assert.Empty((await curator.SubmitAsync(closing, "#close", [("Note", "They come next week.")])).Refusals);
    }

    private static List<string> Lists(string folder, string under = "lists") =>
    [
        .. Directory.EnumerateFiles(Path.Combine(folder, under)).Order(StringComparer.Ordinal)
            .Select(file => $"{Path.GetFileName(file)} {File.ReadAllText(file)}"),
    ];

    private static UnixFileMode? ModeOf(string path) =>
        OperatingSystem.IsWindows() ? null : File.GetUnixFileMode(path);

    private static string PrintedLink(string said) =>
        System.Text.RegularExpressions.Regex.Match(said, "/sign-in/[0-9a-f]{64}").Value;

    // Gatherings of their own for each pile: those of another test are in the same register.
    private static string List(int rows)
    {
        var pile = $"{Guid.NewGuid()}";
        return "Collector,Coll. No.,Date coll.,State,County,Locality,Species,Sheets\n" + string.Concat(
            Enumerable.Range(1, rows).Select(i => InventedNames.OfAnother(
                $"Orla Finch,{i},2024-06-{i:00},Oregon,Harney,{InventedNames.FamilyOf($"{pile} {i}")},"
                    + $"Poa {InventedNames.FamilyOf($"plant {pile} {i}").ToLowerInvariant()},60\n",
                pile)));
    }
}
