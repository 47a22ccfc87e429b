using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class SignInOnSqlite(ServerOnSqlite server) : SignInTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class SignInOnPostgreSql(ServerOnPostgreSql server) : SignInTests(server), IClassFixture<ServerOnPostgreSql>;

public abstract class SignInTests(TestServer server)
{
    private const string Password = "four sheets a day";

    [Fact]
    public async Task A_link_signs_in_when_its_button_is_pressed()
    {
        using var visitor = server.Stranger();

        var page = await visitor.FollowAsync(await visitor.ComeInAsync(await server.LinkAsync(Role.Curator)));

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("Test Curator", page.One(".who").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Opening_a_link_does_not_use_it_up()
    {
        var link = await server.LinkAsync(Role.Technician);
        using var scanner = server.Stranger();
        using var visitor = server.Stranger();

        Assert.Equal(HttpStatusCode.OK, (await scanner.GetPageAsync(link)).Status);

        Assert.Null(scanner.SessionCookie);
        Assert.Equal("/", (await visitor.ComeInAsync(link)).Location);
    }

    [Fact]
    public async Task A_link_works_once()
    {
        var link = await server.LinkAsync(Role.Technician);
        using var first = server.Stranger();
        using var second = server.Stranger();
        await first.ComeInAsync(link);

        var answer = await second.ComeInAsync(link);

        Assert.Equal(HttpStatusCode.Gone, answer.Status);
        Assert.Equal("This link no longer opens", answer.Heading);
        Assert.Null(second.SessionCookie);
    }

    [Fact]
    public async Task Of_two_who_press_the_button_at_once_one_comes_in()
    {
        var link = await server.LinkAsync(Role.Technician);
        using var first = server.Stranger();
        using var second = server.Stranger();

        var answers = await Task.WhenAll(first.ComeInAsync(link), second.ComeInAsync(link));

        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Found);
        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Gone);
    }

    [Fact]
    public async Task A_link_runs_out()
    {
        using var visitor = server.Stranger();

        var answer = await visitor.ComeInAsync(await server.LinkAsync(Role.Curator, TimeSpan.FromSeconds(-1)));

        Assert.Equal(HttpStatusCode.Gone, answer.Status);
    }

    [Fact]
    public async Task A_new_link_takes_the_place_of_the_unused_one()
    {
        var lost = await server.LinkAsync(Role.Administrator);
        await server.LinkAsync(Role.Administrator);
        using var visitor = server.Stranger();

        Assert.Equal(HttpStatusCode.Gone, (await visitor.ComeInAsync(lost)).Status);
    }

    [Fact]
    public async Task A_password_that_was_set_signs_in()
    {
        await SetPasswordAsync(Role.Curator, "test-curator");
        using var visitor = server.Stranger();

        var answer = await TryAsync(visitor, "test-curator", Password, "/account");

        Assert.Equal("/account", answer.Location);
        Assert.Equal(HttpStatusCode.OK, (await visitor.FollowAsync(answer)).Status);
    }

    [Fact]
    public async Task A_return_address_of_another_host_is_not_followed()
    {
        await SetPasswordAsync(Role.Administrator, "test-administrator");
        using var visitor = server.Stranger();

        Assert.Equal("/", (await TryAsync(visitor, "test-administrator", Password, "https://example.org/")).Location);
    }

    [Fact]
    public async Task A_wrong_name_a_wrong_password_and_a_locked_account_are_answered_alike()
    {
        await SetPasswordAsync(Role.Technician, "test-technician");
        using var visitor = server.Stranger();
        var unknown = await TryAsync(visitor, "nobody", Password);
        var wrong = await TryAsync(visitor, "test-technician", "wrong");
        for (var tries = 2; tries <= 8; tries++)
        {
            await TryAsync(visitor, "test-technician", "wrong");
        }

        var locked = await TryAsync(visitor, "test-technician", Password);

        Assert.All([unknown, wrong, locked], answer =>
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
            Assert.StartsWith("Name and password do not fit together", Assert.Single(answer.Refusals));
        });
        Assert.Null(visitor.SessionCookie);
    }

    [Fact]
    public async Task A_short_password_is_refused_with_a_reason_and_changes_nothing()
    {
        using var visitor = await server.SignInAsync(Role.Administrator);
        var page = await visitor.GetPageAsync("/account");

        var answer = await visitor.SubmitAsync(
            page, "main form", [("DisplayName", "Changed"), ("Password", "too short")]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("12", Assert.Single(answer.Refusals), StringComparison.Ordinal);
        var again = await visitor.GetPageAsync("/account");
        Assert.Equal("Test Administrator", again.One("#DisplayName").GetAttribute("value"));
    }

    [Fact]
    public async Task Signing_out_ends_it()
    {
        using var visitor = server.Stranger();
        await visitor.ComeInAsync(await server.LinkAsync(Role.Curator));

        var answer = await visitor.SubmitAsync(await visitor.GetPageAsync("/"), "form[action='/sign-out']");

        Assert.Equal("/sign-in", answer.Location);
        Assert.StartsWith(
            $"{server.Address}sign-in", (await visitor.GetPageAsync("/")).Location, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_administrator_lets_a_person_in()
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var made = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/accounts"), "form.form",
            [("DisplayName", "Ottilie Reed"), ("UserName", "ottilie"), ("Roles", "Curator"), ("Roles", "Technician")]);
        Assert.Equal(HttpStatusCode.OK, made.Status);
        using var ottilie = server.Stranger();

        var page = await ottilie.FollowAsync(await ottilie.ComeInAsync(made.One(".said code").TextContent));

        Assert.Contains("Ottilie Reed", page.One(".who").TextContent, StringComparison.Ordinal);
    }

    private async Task SetPasswordAsync(Role role, string userName)
    {
        using var visitor = await server.SignInAsync(role);
        var page = await visitor.GetPageAsync("/account");
        Assert.Equal(userName, page.One("#UserName").GetAttribute("value"));
        var answer = await visitor.SubmitAsync(page, "main form", [("Password", Password)]);
        Assert.Equal("/account", answer.Location);
    }

    private static async Task<Page> TryAsync(Visitor visitor, string userName, string password, string? returnUrl = null)
    {
        var page = await visitor.GetPageAsync($"/sign-in?ReturnUrl={Uri.EscapeDataString(returnUrl ?? "")}");
        return await visitor.SubmitAsync(page, "main form", [("UserName", userName), ("Password", password)]);
    }
}
