using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Tracking;

[Trait("Store", "sqlite")]
public sealed class MergedPersonsOnSqlite(ServerOnSqlite server)
    : MergedPersonsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class MergedPersonsOnPostgreSql(ServerOnPostgreSql server)
    : MergedPersonsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Two collectors on record are said to be one, or one to be two; and all of it is taken back.</summary>
public abstract class MergedPersonsTests(TestServer server)
{
    // Invented: one person before and after a marriage.
    private const string List = """
        Collector,Coll. No.,Date coll.,Country,State,County,Locality,Species,Sheets
        Ada Quill,21,1931-06-14,United States,Oregon,Harney,Dry wash,Poa secunda J.Presl,1
        Ada @,22,1935-06-15,United States,Oregon,Harney,Dune,Poa annua L.,1
        """;

    private const string Merge = "form[action$='handler=Merge']";
    private const string Unmerge = "form[action$='handler=Unmerge']";
    private const string Split = "form[action$='handler=Split']";

    [Fact]
    public async Task Merged_they_are_one_and_taken_back_they_are_two_as_before()
    {
        var (born, married) = await TakenInAsync("one person", 1);
        using var curator = await server.SignInAsync(Role.Curator);
        var one = await CollectorsAtHand.OnRecordAsync(curator, $"{born} the first", born);
        var two = await CollectorsAtHand.OnRecordAsync(curator, married, married);
        await CollectorsAtHand.StateYearsAsync(curator, one, "1925", "1932");
        await CollectorsAtHand.StateYearsAsync(curator, two, "1933", "1960");
        using var account = await CollectorsAtHand.TiedAsync(server, curator, two, "One person");
        Assert.Equal(["22"], await CollectorsAtHand.NumbersOfAsync(account));

        var merged = await MergeAsync(curator, one, two, "The wedding is in the station's annals");
        Assert.Empty(merged.Refusals);
        Assert.Contains("Both are", (await curator.FollowAsync(merged)).One(".said").TextContent, StringComparison.Ordinal);

        Assert.Equal(["21", "22"], await CollectorsAtHand.NumbersOfAsync(account));
        var both = await curator.FollowAsync(await curator.GetPageAsync(two));
        Assert.Equal(one, both.Address.AbsolutePath);
        Assert.Contains("was merged into", both.One(".said").TextContent, StringComparison.Ordinal);
        Assert.Contains("The wedding is in the station's annals", both.Text, StringComparison.Ordinal);
        Assert.Contains("1925 to 1960", both.One("#years").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain(
            (await curator.GetPageAsync("/collectors")).All("main tbody a"), a => a.GetAttribute("href") == two);
        Assert.Empty(await Pile.VerifyAsync(server));

        Assert.NotEmpty((await curator.SubmitAsync(both, Unmerge, [("how", " ")])).Refusals);
        Assert.Empty((await curator.SubmitAsync(both, Unmerge, [("how", "two weddings were confused")])).Refusals);

        Assert.Equal(["22"], await CollectorsAtHand.NumbersOfAsync(account));
        Assert.Contains("1925 to 1932", (await curator.GetPageAsync(one)).One("#years").TextContent, StringComparison.Ordinal);
        Assert.Contains("1933 to 1960", (await curator.GetPageAsync(two)).One("#years").TextContent, StringComparison.Ordinal);
        Assert.Contains(married, (await curator.GetPageAsync(two)).Text, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Every_spelling_and_tie_says_which_act_took_it_over()
    {
        var (born, married) = await TakenInAsync("which act", 2);
        using var curator = await server.SignInAsync(Role.Curator);
        var one = await CollectorsAtHand.OnRecordAsync(curator, $"{born} the first", born);
        var two = await CollectorsAtHand.OnRecordAsync(curator, married, married);
        using var account = await CollectorsAtHand.TiedAsync(server, curator, two, "Which act");
        Assert.Empty((await MergeAsync(curator, one, two, "known by both names")).Refusals);
        var (oneId, twoId) = (IdOf(one), IdOf(two));

        var (act, spellings, ties) = await server.InRegisterAsync(async db => (
            await db.PersonMerges.Where(m => m.PersonId == twoId).Select(m => m.ActId).SingleAsync(),
            await db.PersonSpellings.Where(s => s.Written == married).OrderBy(s => s.Id)
                .Select(s => new { s.PersonId, s.ActId, s.EndedActId }).ToListAsync(),
            await db.AccountTies.Where(t => t.AccountId == account.Id).OrderBy(t => t.Id)
                .Select(t => new { t.PersonId, t.ActId, t.EndedActId }).ToListAsync()));

        Assert.Equal([twoId, oneId], spellings.Select(s => s.PersonId));
        Assert.Equal([act, null], spellings.Select(s => s.EndedActId));
        Assert.Equal(act, spellings[1].ActId);
        Assert.Equal([twoId, oneId], ties.Select(t => t.PersonId));
        Assert.Equal([act, null], ties.Select(t => t.EndedActId));
        Assert.Equal(act, ties[1].ActId);
    }

    [Fact]
    public async Task Who_was_merged_on_is_taken_back_in_turn()
    {
        var (born, married) = await TakenInAsync("in turn", 3);
        using var curator = await server.SignInAsync(Role.Curator);
        var one = await CollectorsAtHand.OnRecordAsync(curator, $"{born} one", born);
        var two = await CollectorsAtHand.OnRecordAsync(curator, $"{married} two", married);
        var three = await CollectorsAtHand.OnRecordAsync(curator, $"A. {born}");
        Assert.Empty((await MergeAsync(curator, two, one, "first")).Refusals);
        var opened = await curator.GetPageAsync(two);
        Assert.Empty((await MergeAsync(curator, three, two, "second")).Refusals);

        // The oldest address leads on twice, and the first merging cannot be taken back before the second.
        Assert.Equal(three, (await curator.FollowAsync(await curator.GetPageAsync(one))).Address.AbsolutePath);
        var early = await CollectorsAtHand.PostAsync(
            server, curator, opened, "Unmerge", ("other", $"{IdOf(one)}"), ("how", "too early"));
        Assert.Equal(three, early.Location);
        Assert.Contains("merged into another collector meanwhile", (await curator.GetPageAsync(three)).Text, StringComparison.Ordinal);

        Assert.Empty((await curator.SubmitAsync(await curator.GetPageAsync(three), Unmerge, [("how", "second")])).Refusals);
        Assert.Empty((await curator.SubmitAsync(await curator.GetPageAsync(two), Unmerge, [("how", "first")])).Refusals);
        Assert.Contains(born, (await curator.GetPageAsync(one)).One(".as-written").TextContent, StringComparison.Ordinal);
        Assert.Contains(married, (await curator.GetPageAsync(two)).One(".as-written").TextContent, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    [Fact]
    public async Task Two_accounts_a_stranger_and_a_merging_without_how_it_is_known_are_refused()
    {
        var (born, married) = await TakenInAsync("two accounts", 4);
        using var curator = await server.SignInAsync(Role.Curator);
        var one = await CollectorsAtHand.OnRecordAsync(curator, $"{born} one", born);
        var two = await CollectorsAtHand.OnRecordAsync(curator, $"{born} two", married);
        using var first = await CollectorsAtHand.TiedAsync(server, curator, one, "First");
        using var second = await CollectorsAtHand.TiedAsync(server, curator, two, "Second");

        var refused = await MergeAsync(curator, one, two, "the same");
        Assert.Contains("have an account each", Assert.Single(refused.Refusals), StringComparison.Ordinal);
        Assert.Equal("the same", refused.One("#merge-how").GetAttribute("value"));
        Assert.Equal(["21"], await CollectorsAtHand.NumbersOfAsync(first));
        Assert.Equal(["22"], await CollectorsAtHand.NumbersOfAsync(second));

        var page = await curator.GetPageAsync(one);
        foreach (var (other, how) in new[] { ("999999", "x"), ($"{IdOf(one)}", "x"), ($"{IdOf(two)}", "") })
        {
            var answer = await CollectorsAtHand.PostAsync(
                server, curator, page, "Merge", ("other", other), ("how", how));
            Assert.NotEmpty(answer.Refusals);
            Assert.Equal(two, (await curator.GetPageAsync(two)).Address.AbsolutePath);
        }
    }

    [Fact]
    public async Task Split_the_chosen_spellings_are_somebody_else()
    {
        var (born, other) = await TakenInAsync("split", 5);
        using var curator = await server.SignInAsync(Role.Curator);
        var one = await CollectorsAtHand.OnRecordAsync(curator, $"{born} both", born, other);
        using var account = await CollectorsAtHand.TiedAsync(server, curator, one, "Both");
        Assert.Equal(["21", "22"], await CollectorsAtHand.NumbersOfAsync(account));
        var page = await curator.GetPageAsync(one);

        var all = await CollectorsAtHand.PostAsync(
            server, curator, page, "Split", ("split", born), ("split", other), ("name", "All"), ("how", "x"));
        Assert.Contains("Nothing would be left", Assert.Single(all.Refusals), StringComparison.Ordinal);
        Assert.Equal("All", all.One("#split-name").GetAttribute("value"));
        Assert.NotEmpty((await CollectorsAtHand.PostAsync(
            server, curator, page, "Split", ("split", "Nobody"), ("name", "None"), ("how", "x"))).Refusals);

        (string, string)[] fields = [("split", other), ("name", other), ("how", "their hands differ"), ("RequestKey", "split once")];
        var split = await CollectorsAtHand.PostAsync(server, curator, page, "Split", fields);
        Assert.Empty(split.Refusals);
        // The same form sent twice puts one person on record.
        Assert.Equal(split.Location, (await CollectorsAtHand.PostAsync(server, curator, page, "Split", fields)).Location);

        Assert.Equal(["21"], await CollectorsAtHand.NumbersOfAsync(account));
        Assert.Contains(other, (await curator.GetPageAsync(split.Location!)).One(".as-written").TextContent, StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private static long IdOf(string address) => long.Parse(address.Split('/')[^1], null);

    // The family names differ, so that the other is looked for by name first.
    private static async Task<Page> MergeAsync(Visitor curator, string into, string other, string how)
    {
        var heading = (await curator.GetPageAsync(other)).Heading;
        var family = heading.Split(' ')[1];
        return await curator.SubmitAsync(
            await curator.GetPageAsync($"{into}?Family={family}"), Merge, [("other", $"{IdOf(other)}"), ("how", how)]);
    }

    private async Task<(string Born, string Married)> TakenInAsync(string text, int month)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var married = InventedNames.FamilyOf($"{text} married");
        var rows = InventedNames.OfAnother(List, text).Replace("@", married, StringComparison.Ordinal)
            .Replace("-06-", $"-{month:00}-", StringComparison.Ordinal);
        await Pile.TakeInAsync(server, curator, rows);
        return ($"Ada {InventedNames.FamilyOf(text)}", $"Ada {married}");
    }
}
