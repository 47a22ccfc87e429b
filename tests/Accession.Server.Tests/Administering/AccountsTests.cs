using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class AccountsOnSqlite(ServerOnSqlite server) : AccountsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class AccountsOnPostgreSql(ServerOnPostgreSql server)
    : AccountsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>An administrator lets people in, changes what they do, and closes their accounts.</summary>
public abstract class AccountsTests(TestServer server)
{
    [Fact]
    public async Task Work_that_was_changed_opens_other_pages()
    {
        using var newcomer = await Newcomers.LetInAsync(server, "Ines Aster", Role.Technician);
        Assert.True(await IsNotTheirsAsync(newcomer.Visitor, "/batches"));

        await ChangeAsync(newcomer.Id, [("Roles", "Curator")]);

        // Whoever is signed in has it within a minute; whoever signs in again has it now.
        using var again = server.Stranger();
        await again.ComeInAsync(await NewLinkAsync(newcomer.Id));
        Assert.Equal(HttpStatusCode.OK, (await again.GetPageAsync("/batches")).Status);
        Assert.True(await IsNotTheirsAsync(again, "/accounts"));
    }

    [Theory]
    [InlineData("WeedOfficer", "", "sees only the counties named here")]
    [InlineData("WeedOfficer", "Harney", "Write the state after \"Harney\"")]
    [InlineData("Technician", "Harney, Oregon", "Counties are for weed officers")]
    public async Task A_weed_officer_has_counties_and_nobody_else_has(string role, string counties, string reason)
    {
        using var administrator = await server.SignInAsync(Role.Administrator);

        var answer = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/accounts"), "form.form",
            [("DisplayName", "Sol Vetch"), ("UserName", $"{Guid.NewGuid():N}"), ("Roles", role), ("Counties", counties)]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains(reason, Assert.Single(answer.Refusals), StringComparison.Ordinal);
        // What was typed is still there, and no account was made.
        Assert.Equal("Sol Vetch", answer.One("input[name=DisplayName]").GetAttribute("value"));
        Assert.False(await server.InRegisterAsync(db => db.Users.AnyAsync(user => user.DisplayName == "Sol Vetch")));
    }

    [Fact]
    public async Task A_closed_account_opens_in_no_way_until_it_is_opened_again()
    {
        using var newcomer = await Newcomers.LetInAsync(server, "Tam Sedge", Role.Curator);
        await SetPasswordAsync(newcomer, "six dry sheets here");
        var unused = await NewLinkAsync(newcomer.Id);

        await PressAsync(newcomer.Id, "Close");

        using var stranger = server.Stranger();
        Assert.Equal(HttpStatusCode.Gone, (await stranger.ComeInAsync(unused)).Status);
        Assert.NotEmpty((await SignInAsync(stranger, newcomer.UserName, "six dry sheets here")).Refusals);
        Assert.Null(stranger.SessionCookie);
        using var administrator = await server.SignInAsync(Role.Administrator);
        var link = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/accounts"), $"form:has(input[value='{newcomer.Id}'])");
        Assert.Contains("is closed", Assert.Single(link.Refusals), StringComparison.Ordinal);

        await PressAsync(newcomer.Id, "Open");
        Assert.Equal("/", (await SignInAsync(stranger, newcomer.UserName, "six dry sheets here")).Location);
    }

    [Fact]
    public async Task The_only_administrator_who_can_come_in_is_not_shut_out()
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var me = await server.InRegisterAsync(db => db.Users
            .Where(user => user.UserName == TestServer.UserName(Role.Administrator)).Select(user => user.Id).SingleAsync());
        // The one of the first start has never come in, but could.
        var first = await server.InRegisterAsync(db => db.Users
            .Where(user => user.UserName == "administrator").Select(user => user.Id).SingleOrDefaultAsync());
        if (first is not null)
        {
            await PressAsync(first, "Close");
        }

        var page = await administrator.GetPageAsync($"/accounts/{me}");
        var closed = await administrator.SubmitAsync(page, "form[action$='handler=Close']");
        var demoted = await administrator.SubmitAsync(page, "form[action$='handler=Work']", [("Roles", "Curator")]);

        Assert.Equal(HttpStatusCode.Conflict, closed.Status);
        Assert.All([closed, demoted], answer =>
            Assert.Contains("the only administrator", Assert.Single(answer.Refusals), StringComparison.Ordinal));
        if (first is not null)
        {
            await PressAsync(first, "Open");
        }
    }

    [Fact]
    public async Task Nobody_stands_at_an_address_that_is_nobodys()
    {
        using var administrator = await server.SignInAsync(Role.Administrator);

        Assert.Equal(HttpStatusCode.NotFound, (await administrator.GetPageAsync("/accounts/nobody")).Status);
    }

    private static async Task<bool> IsNotTheirsAsync(Visitor visitor, string path) =>
        (await visitor.GetPageAsync(path)).Location?.Contains("/not-yours", StringComparison.Ordinal) == true;

    private async Task ChangeAsync(string id, (string, string)[] fields)
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var answer = await administrator.SubmitAsync(
            await administrator.GetPageAsync($"/accounts/{id}"), "form[action$='handler=Work']", fields);
        Assert.Empty(answer.Refusals);
    }

    private async Task PressAsync(string id, string handler)
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var answer = await administrator.SubmitAsync(
            await administrator.GetPageAsync($"/accounts/{id}"), $"form[action$='handler={handler}']");
        Assert.Empty(answer.Refusals);
    }

    private async Task<string> NewLinkAsync(string id)
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var made = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/accounts"), $"form:has(input[value='{id}'])");
        Assert.Empty(made.Refusals);
        return new Uri(made.One(".said code").TextContent).AbsolutePath;
    }

    private static async Task SetPasswordAsync(Newcomer newcomer, string password) =>
        Assert.Empty((await newcomer.Visitor.SubmitAsync(
            await newcomer.Visitor.GetPageAsync("/account"), "form.form", [("Password", password)])).Refusals);

    private static async Task<Page> SignInAsync(Visitor visitor, string userName, string password) =>
        await visitor.SubmitAsync(
            await visitor.GetPageAsync("/sign-in"), "main form", [("UserName", userName), ("Password", password)]);
}
