using System.Net;
using Accession.Core.Outcomes;
using Accession.Server.Administering;
using Accession.Server.Hosting;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class TokenOnSqlite(ServerOnSqlite server) : TokenTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class TokenOnPostgreSql(ServerOnPostgreSql server) : TokenTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>Tokens are made and withdrawn on pages, and open no more than their person or their maker said.</summary>
public abstract class TokenTests(TestServer server)
{
    private const string Specimens = "/api/v1/specimens";

    [Fact]
    public async Task A_person_makes_a_token_sees_it_once_uses_it_and_withdraws_it()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync("/account/tokens");
        var name = $"label printer {Guid.NewGuid():N}";
        var made = await curator.SubmitAsync(page, "form:has(#Name)", [("Name", name), ("Chosen", "ReadRegister"), ("Days", "7")]);
        var secret = made.One("section.said code").TextContent;

        Assert.Matches("^[0-9a-f]{64}$", secret);
        var after = await curator.GetPageAsync("/account/tokens");
        Assert.DoesNotContain(secret, after.Text, StringComparison.Ordinal);
        Assert.Contains(name, after.Text, StringComparison.Ordinal);
        // Kept neither as it is nor in the answer of the act.
        Assert.False(await server.InRegisterAsync(db => db.ApiTokens.AnyAsync(t => t.TokenHash == secret)));
        Assert.False(await server.InRegisterAsync(db => db.Acts.AnyAsync(act => act.Answer!.Contains(secret))));

        using var program = new JsonProgram(server.Address, secret);
        Assert.Equal(HttpStatusCode.OK, (await program.GetAsync(Specimens)).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await program.GetAsync("/api/v1/batches")).Status);
        Assert.NotNull(await server.InRegisterAsync(
            db => db.ApiTokens.Where(t => t.Name == name).Select(t => t.LastUsedAt).SingleAsync()));

        var id = await server.InRegisterAsync(db => db.ApiTokens.Where(t => t.Name == name).Select(t => t.Id).SingleAsync());
        var withdrawn = await curator.SubmitAsync(after, $"form:has(input[name=token][value='{id}'])");
        Assert.Empty(withdrawn.Refusals);
        Assert.Equal(HttpStatusCode.Unauthorized, (await program.GetAsync(Specimens)).Status);
    }

    [Fact]
    public async Task A_form_sent_twice_makes_one_token_and_does_not_tell_it_again()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync("/account/tokens");
        var name = $"twice {Guid.NewGuid():N}";
        (string, string)[] fields = [("Name", name), ("Chosen", "ReadRegister"), ("Days", "7")];

        await curator.SubmitAsync(page, "form:has(#Name)", fields);
        var again = await curator.SubmitAsync(page, "form:has(#Name)", fields);

        Assert.Empty(again.All("section.said code"));
        Assert.Contains("it was shown then", again.Text, StringComparison.Ordinal);
        Assert.Equal(1, await server.InRegisterAsync(db => db.ApiTokens.CountAsync(t => t.Name == name)));
    }

    [Fact]
    public async Task Nobody_gives_a_program_more_than_they_have_or_withdraws_anothers()
    {
        using var technician = await server.SignInAsync(Role.Technician);
        var page = await technician.GetPageAsync("/account/tokens");
        Assert.Empty(page.All("input[value=Settle]"));
        var technicianActor = new Actor("someone", "Someone", new HashSet<Role> { Role.Technician });

        var refused = await server.RunAsync<MakeToken, Outcome<MakeToken.Made>>(make => make.RunAsync(
            new("more", false, [Right.Settle], 7), new Door(technicianActor), CancellationToken.None));
        Assert.Equal(RefusalKind.NotAllowed, Assert.Single(refused.Refusals).Kind);
        var device = await server.RunAsync<MakeToken, Outcome<MakeToken.Made>>(make => make.RunAsync(
            new("device", true, [Right.NumberSheets], 7), new Door(technicianActor), CancellationToken.None));
        Assert.Equal(RefusalKind.NotAllowed, Assert.Single(device.Refusals).Kind);

        using var others = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.ReadRegister);
        var id = await server.InRegisterAsync(db => db.ApiTokens.MaxAsync(t => t.Id));
        var notTheirs = await server.RunAsync<WithdrawToken, Outcome<string>>(withdraw => withdraw.RunAsync(
            new(id), new Door(technicianActor), CancellationToken.None));
        Assert.Equal(RefusalKind.NotFound, Assert.Single(notTheirs.Refusals).Kind);
        Assert.Equal(HttpStatusCode.OK, (await others.GetAsync(Specimens)).Status);
    }

    [Fact]
    public async Task A_role_that_is_taken_away_takes_its_rights_with_it_at_once()
    {
        var (id, name) = await NewPersonAsync(Role.Curator, Role.Technician);
        using var program = new JsonProgram(server.Address, await JsonProgram.MadeAsync(
            server, new("of a leaver", false, [Right.SendLists, Right.NumberSheets], 7),
            new Actor(id, name, new HashSet<Role> { Role.Curator, Role.Technician })));
        Assert.Equal(HttpStatusCode.OK, (await program.GetAsync("/api/v1/batches")).Status);

        await LoseAsync(id, Role.Curator);
        Assert.Equal(HttpStatusCode.Forbidden, (await program.GetAsync("/api/v1/batches")).Status);
        Assert.Equal(HttpStatusCode.OK, (await program.GetAsync("/api/v1/piles")).Status);

        await LoseAsync(id, Role.Technician);
        Assert.Equal(HttpStatusCode.Unauthorized, (await program.GetAsync("/api/v1/piles")).Status);
    }

    [Fact]
    public async Task Another_right_of_the_token_opens_no_more_of_the_sheets()
    {
        // Who works here and collects as well, on whose sheets nobody has said yet that they are this person's.
        var (id, name) = await NewPersonAsync(Role.Technician, Role.Collector);
        using var program = new JsonProgram(server.Address, await JsonProgram.MadeAsync(
            server, new("scans and reads", false, [Right.NumberSheets, Right.ReadCollected], 7),
            new Actor(id, name, new HashSet<Role> { Role.Technician, Role.Collector })));
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, InventedNames.OfAnother(
            "Collector,Number,Species\nAda Quill,5,Poa secunda J.Presl\n", "another right"));
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);

        Assert.Empty((await program.GetAsync(Specimens)).Items);
        Assert.Equal(HttpStatusCode.NotFound, (await program.GetAsync($"{Specimens}/{pile.Code(1)}")).Status);
        Assert.Empty((await program.GetAsync("/api/v1/own-gatherings")).Items);
    }

    [Fact]
    public async Task An_administrator_lets_a_device_in_on_its_page()
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var page = await administrator.GetPageAsync("/devices");
        var made = await administrator.SubmitAsync(
            page, "form:has(#Name)", [("Name", "Scanner at the window"), ("Chosen", "NumberSheets"), ("Days", "7")]);

        using var device = new JsonProgram(server.Address, made.One("section.said code").TextContent);

        Assert.Equal(HttpStatusCode.OK, (await device.GetAsync("/api/v1/piles")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await device.GetAsync(Specimens)).Status);
    }

    private async Task<(string Id, string Name)> NewPersonAsync(params Role[] roles)
    {
        var name = $"leaver-{Guid.NewGuid():N}";
        var account = await server.RunAsync<People, Account>(people => people.EnsureAsync(name, "A Leaver", roles));
        return (account.Id, account.DisplayName);
    }

    private Task<IdentityResult> LoseAsync(string id, Role role) => server.RunAsync<UserManager<Account>, IdentityResult>(
        async accounts => await accounts.RemoveFromRoleAsync((await accounts.FindByIdAsync(id))!, role.ToString()));
}
