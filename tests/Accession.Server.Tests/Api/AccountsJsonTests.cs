using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class AccountsJsonOnSqlite(ServerOnSqlite server) : AccountsJsonTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class AccountsJsonOnPostgreSql(ServerOnPostgreSql server)
    : AccountsJsonTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>An administrator's program lets people in as the pages do, and no other program knows of them.</summary>
public abstract class AccountsJsonTests(TestServer server)
{
    private const string Accounts = "/api/v1/accounts";

    [Fact]
    public async Task Somebody_is_let_in_given_other_work_shut_out_and_let_in_again()
    {
        using var program = await AdministratorAsync();
        var userName = $"{Guid.NewGuid():N}@example.org";
        var invited = await program.PostAsync(Accounts, new { userName, displayName = "Wren Sedge", roles = new[] { "technician" } });
        Assert.True(invited.Status == HttpStatusCode.OK, invited.Text);
        var address = $"{Accounts}/{invited.Body.GetProperty("accountId").GetString()}";

        using var newcomer = server.Stranger();
        Assert.Equal(
            HttpStatusCode.Found, (await newcomer.ComeInAsync(invited.Body.GetProperty("link").GetString()!)).Status);
        var seen = await program.GetAsync(address);
        Assert.Equal("technician", Assert.Single(seen.Body.GetProperty("roles").EnumerateArray()).GetString());

        var changed = await program.PostAsync(
            $"{address}/work-changes", new { roles = new[] { "weedOfficer" }, counties = new[] { "Harney Co., OR" } },
            ifMatch: seen.Tag);
        Assert.True(changed.Status == HttpStatusCode.OK, changed.Text);
        var after = await program.GetAsync(address);
        Assert.Equal("Harney Co., OR", Assert.Single(after.Body.GetProperty("counties").EnumerateArray()).GetString());

        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"{address}/closings", null, ifMatch: after.Tag)).Status);
        var closed = await program.GetAsync(address);
        Assert.NotEqual(System.Text.Json.JsonValueKind.Null, closed.Body.GetProperty("closedAt").ValueKind);
        Assert.Equal(HttpStatusCode.Conflict, (await program.PostAsync($"{address}/links", null)).Status);
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"{address}/openings", null, ifMatch: closed.Tag)).Status);
        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"{address}/links", null)).Status);
    }

    [Fact]
    public async Task A_link_is_told_once_and_stands_in_no_act()
    {
        using var program = await AdministratorAsync();
        var (key, body) = (JsonProgram.Key(), new
        {
            userName = $"{Guid.NewGuid():N}",
            displayName = "Told Once",
            roles = new[] { "technician" },
        });
        var first = await program.PostAsync(Accounts, body, key);
        var again = await program.PostAsync(Accounts, body, key);

        var link = first.Body.GetProperty("link").GetString()!;
        Assert.Matches("^/sign-in/[0-9a-f]{64}$", link);
        Assert.Equal(first.Body.GetProperty("accountId").GetString(), again.Body.GetProperty("accountId").GetString());
        Assert.Equal(System.Text.Json.JsonValueKind.Null, again.Body.GetProperty("link").ValueKind);
        var token = link.Split('/')[^1];
        Assert.False(await server.InRegisterAsync(db => db.Acts.AnyAsync(act => act.Answer!.Contains(token))));
        Assert.DoesNotContain(token, (await program.GetAsync($"{Accounts}?limit=500")).Text, StringComparison.Ordinal);
        // It opens still: the second sending made no other.
        using var newcomer = server.Stranger();
        Assert.Equal(HttpStatusCode.Found, (await newcomer.ComeInAsync(link)).Status);
    }

    [Fact]
    public async Task A_change_is_made_only_of_what_was_seen()
    {
        using var program = await AdministratorAsync();
        var id = await LetInAsync(program);
        var address = $"{Accounts}/{id}";
        var seen = await program.GetAsync(address);
        Assert.Equal(HttpStatusCode.NotModified, (await program.GetAsync(address, seen.Tag)).Status);
        var curator = new { roles = new[] { "curator" } };

        foreach (var door in new[] { "work-changes", "closings", "openings" })
        {
            Assert.Equal(428, (int)(await program.PostAsync($"{address}/{door}", curator)).Status);
        }

        Assert.Equal(HttpStatusCode.OK, (await program.PostAsync($"{address}/work-changes", curator, ifMatch: seen.Tag)).Status);
        var late = await program.PostAsync($"{address}/closings", null, ifMatch: seen.Tag);
        Assert.Equal(HttpStatusCode.PreconditionFailed, late.Status);
        Assert.Contains("changed since", late.Detail, StringComparison.Ordinal);
        Assert.Null(await server.InRegisterAsync(
            db => db.Users.Where(user => user.Id == id).Select(user => user.ClosedAt).SingleAsync()));
    }

    [Fact]
    public async Task Everybody_stands_in_the_list_once()
    {
        using var program = await AdministratorAsync();
        for (var i = 0; i < 5; i++)
        {
            await LetInAsync(program);
        }

        List<string> seen = [];
        for (var path = $"{Accounts}?limit=2"; path is not null;)
        {
            var page = await program.GetAsync(path);
            Assert.True(page.Status == HttpStatusCode.OK, page.Text);
            seen.AddRange(page.Items.Select(person => person.GetProperty("id").GetString()!));
            path = page.Next;
        }

        var everybody = await server.InRegisterAsync(db => db.Users.Select(user => user.Id).ToListAsync());
        Assert.Equal(everybody.Order(), seen.Order());
    }

    [Theory]
    [InlineData("weedOfficer", "Harney", "Write the state after")]
    [InlineData("weedOfficer", null, "sees only the counties named here")]
    [InlineData(null, null, "at least one kind of work")]
    public async Task What_cannot_be_right_is_refused_as_on_the_page(string? role, string? county, string reason)
    {
        using var program = await AdministratorAsync();
        var answer = await program.PostAsync(Accounts, new
        {
            userName = $"{Guid.NewGuid():N}",
            displayName = "Nobody Yet",
            roles = role is null ? null : new[] { role },
            counties = county is null ? null : new[] { county },
        });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains(reason, answer.Detail, StringComparison.Ordinal);
        Assert.False(await server.InRegisterAsync(db => db.Users.AnyAsync(user => user.DisplayName == "Nobody Yet")));
    }

    [Fact]
    public async Task Nobody_but_an_administrators_own_program_bears_the_right()
    {
        using var others = await JsonProgram.DeviceAsync(server, "everything else", Rights.OfDevices);
        using var curator = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.ReadRegister, Right.Settle);
        Assert.Equal(HttpStatusCode.Forbidden, (await others.GetAsync(Accounts)).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await curator.GetAsync(Accounts)).Status);

        foreach (var (role, forDevice) in new[] { (Role.Curator, false), (Role.Administrator, true) })
        {
            var refused = await server.RunAsync<MakeToken, Outcome<MakeToken.Made>>(make => make.RunAsync(
                new("more", forDevice, [Right.KeepAccounts], 7),
                new Door(new Actor("someone", "Someone", new HashSet<Role> { role })), CancellationToken.None));
            Assert.Equal(RefusalKind.NotAllowed, Assert.Single(refused.Refusals).Kind);
        }

        using var administrator = await server.SignInAsync(Role.Administrator);
        Assert.Empty((await administrator.GetPageAsync("/devices")).All("input[value=KeepAccounts]"));
        Assert.Single((await administrator.GetPageAsync("/account/tokens")).All("input[value=KeepAccounts]"));
    }

    private Task<JsonProgram> AdministratorAsync() =>
        JsonProgram.OfPersonAsync(server, Role.Administrator, Right.KeepAccounts);

    private static async Task<string> LetInAsync(JsonProgram program)
    {
        var invited = await program.PostAsync(
            Accounts, new { userName = $"{Guid.NewGuid():N}", displayName = "Somebody New", roles = new[] { "technician" } });
        Assert.True(invited.Status == HttpStatusCode.OK, invited.Text);
        return invited.Body.GetProperty("accountId").GetString()!;
    }
}
