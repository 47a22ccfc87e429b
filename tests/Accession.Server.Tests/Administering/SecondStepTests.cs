using System.Net;
using System.Security.Cryptography;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class SecondStepOnSqlite(ServerOnSqlite server) : SecondStepTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class SecondStepOnPostgreSql(ServerOnPostgreSql server)
    : SecondStepTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>The second step when signing in. The test is the app: time-based codes after RFC 6238, written here anew.</summary>
public abstract class SecondStepTests(TestServer server)
{
    private const string Password = "a press of eight boards";

    // RFC 6238, appendix B, the SHA-1 column: the last six of the eight digits there (from memory).
    [Theory]
    [InlineData(59, "287082")]
    [InlineData(1111111109, "081804")]
    [InlineData(20000000000, "353130")]
    public void The_app_of_these_tests_counts_as_the_standard_does(long second, string code) =>
        Assert.Equal(code, CodeAt("12345678901234567890"u8.ToArray(), second));

    [Fact]
    public async Task After_the_password_a_code_is_asked_for()
    {
        using var somebody = await Newcomers.LetInAsync(server, "Ida Rush", Role.Curator);
        var (secret, _) = await SetUpAsync(somebody);
        using var visitor = server.Stranger();

        var asked = await PasswordAsync(visitor, somebody);

        Assert.Equal("/sign-in/code", asked.Location?.Split('?')[0]);
        Assert.Null(visitor.SessionCookie);
        Assert.Contains("/sign-in?", (await visitor.GetPageAsync("/account")).Location, StringComparison.Ordinal);
        Assert.NotEmpty((await CodeAsync(visitor, "000000")).Refusals);
        Assert.Equal("/", (await CodeAsync(visitor, Now(secret))).Location);
        Assert.NotNull(visitor.SessionCookie);
    }

    [Fact]
    public async Task A_link_asks_for_it_too_because_whoever_reads_the_mail_has_the_link()
    {
        using var somebody = await Newcomers.LetInAsync(server, "Leo Rush", Role.Technician);
        var (secret, _) = await SetUpAsync(somebody);
        using var administrator = await server.SignInAsync(Role.Administrator);
        var made = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/accounts"), $"form:has(input[value='{somebody.Id}'])");
        using var visitor = server.Stranger();

        var answer = await visitor.ComeInAsync(new Uri(made.One(".said code").TextContent).AbsolutePath);

        Assert.Equal("/sign-in/code", answer.Location);
        Assert.Null(visitor.SessionCookie);
        Assert.Equal("/", (await CodeAsync(visitor, Now(secret))).Location);
    }

    [Fact]
    public async Task A_recovery_code_opens_once()
    {
        using var somebody = await Newcomers.LetInAsync(server, "Mae Rush", Role.Curator);
        var (_, codes) = await SetUpAsync(somebody);
        Assert.Equal(10, codes.Count);
        using var first = server.Stranger();
        using var second = server.Stranger();

        await PasswordAsync(first, somebody);
        Assert.Equal("/", (await CodeAsync(first, codes[3])).Location);
        await PasswordAsync(second, somebody);

        Assert.NotEmpty((await CodeAsync(second, codes[3])).Refusals);
        Assert.Contains(
            "9 recovery codes are left", (await somebody.Visitor.GetPageAsync("/account/ways-in")).Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_ends_with_a_code_and_not_without()
    {
        using var somebody = await Newcomers.LetInAsync(server, "Joy Rush", Role.Curator);
        var (secret, _) = await SetUpAsync(somebody);
        var page = await somebody.Visitor.GetPageAsync("/account/ways-in");
        Assert.NotEmpty((await somebody.Visitor.SubmitAsync(page, "form[action$='handler=End']", [("code", "1")])).Refusals);

        var ended = await somebody.Visitor.SubmitAsync(page, "form[action$='handler=End']", [("code", Now(secret))]);

        Assert.Empty(ended.Refusals);
        using var visitor = server.Stranger();
        Assert.Equal("/", (await PasswordAsync(visitor, somebody)).Location);
    }

    [Fact]
    public async Task An_administrator_takes_it_away_from_whoever_lost_it()
    {
        using var somebody = await Newcomers.LetInAsync(server, "Kit Rush", Role.Curator);
        await SetUpAsync(somebody);
        using var administrator = await server.SignInAsync(Role.Administrator);

        var answer = await administrator.SubmitAsync(
            await administrator.GetPageAsync($"/accounts/{somebody.Id}"), "form[action$='handler=SecondFactor']");

        Assert.Equal(HttpStatusCode.Found, answer.Status);
        using var visitor = server.Stranger();
        Assert.Equal("/", (await PasswordAsync(visitor, somebody)).Location);
    }

    [Fact]
    public async Task The_page_of_the_code_leads_whoever_comes_from_nowhere_to_the_beginning()
    {
        using var stranger = server.Stranger();

        Assert.Equal("/sign-in", (await stranger.GetPageAsync("/sign-in/code")).Location);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("not JSON")]
    [InlineData("""{"id":"AAAA","rawId":"AAAA","type":"public-key","response":{}}""")]
    public async Task What_is_no_passkey_signs_nobody_in(string credential)
    {
        using var stranger = server.Stranger();
        var page = await stranger.GetPageAsync("/sign-in");
        Assert.Single((await stranger.SubmitAsync(page, "form[data-passkey-sign-in]", [("credential", credential)])).Refusals);
        Assert.Contains(
            "challenge", await AskForPasskeyAsync(stranger, page, "form[data-passkey-sign-in]"), StringComparison.Ordinal);

        var answer = await stranger.SubmitAsync(page, "form[data-passkey-sign-in]", [("credential", credential)]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Single(answer.Refusals);
        Assert.Null(stranger.SessionCookie);
    }

    [Fact]
    public async Task What_is_no_passkey_is_not_kept()
    {
        using var somebody = await Newcomers.LetInAsync(server, "Ann Rush", Role.Curator);
        var page = await somebody.Visitor.GetPageAsync("/account/ways-in");

        foreach (var credential in new[] { "", "{}", "not JSON" })
        {
            Assert.Contains(
                "challenge", await AskForPasskeyAsync(somebody.Visitor, page, "form[data-passkey-add]"),
                StringComparison.Ordinal);
            var answer = await somebody.Visitor.SubmitAsync(
                page, "form[data-passkey-add]", [("credential", credential), ("name", "Desk")]);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        }
    }

    // As the script does before it asks the browser.
    private static async Task<string> AskForPasskeyAsync(Visitor visitor, Page page, string form)
    {
        const string name = "__RequestVerificationToken";
        using var token = new FormUrlEncodedContent(
            [new(name, page.One($"{form} input[name={name}]").GetAttribute("value")!)]);
        using var asked = await visitor.Http.PostAsync(new Uri(page.Address, "?handler=PasskeyOptions"), token);
        Assert.Equal(HttpStatusCode.OK, asked.StatusCode);
        return await asked.Content.ReadAsStringAsync();
    }

    // Sets a password too, so that signing in has a first step.
    private static async Task<(byte[] Secret, IReadOnlyList<string> Codes)> SetUpAsync(Newcomer somebody)
    {
        var visitor = somebody.Visitor;
        Assert.Empty((await visitor.SubmitAsync(
            await visitor.GetPageAsync("/account"), "form.form", [("Password", Password)])).Refusals);
        var shown = await visitor.SubmitAsync(
            await visitor.GetPageAsync("/account/ways-in"), "form[action$='handler=SetUp']");
        var letters = shown.One("code.secret").TextContent.Replace(" ", "", StringComparison.Ordinal);
        Assert.NotEmpty(shown.One("svg.qr-symbol path").GetAttribute("d")!);
        var secret = Base32(letters);
        var wrong = await visitor.SubmitAsync(shown, "form[action$='handler=Confirm']", [("code", "12")]);
        Assert.NotEmpty(wrong.Refusals);
        Assert.Equal(letters, wrong.One("code.secret").TextContent.Replace(" ", "", StringComparison.Ordinal));
        var done = await visitor.SubmitAsync(wrong, "form[action$='handler=Confirm']", [("code", Now(secret))]);
        Assert.Empty(done.Refusals);
        return (secret, [.. done.All(".codes code").Select(code => code.TextContent)]);
    }

    private static async Task<Page> PasswordAsync(Visitor visitor, Newcomer somebody) => await visitor.SubmitAsync(
        await visitor.GetPageAsync("/sign-in"), "main form", [("UserName", somebody.UserName), ("Password", Password)]);

    private static async Task<Page> CodeAsync(Visitor visitor, string code) => await visitor.SubmitAsync(
        await visitor.GetPageAsync("/sign-in/code"), "main form", [("Code", code)]);

    private static string Now(byte[] secret) => CodeAt(secret, TimeProvider.System.GetUtcNow().ToUnixTimeSeconds());

    private static string CodeAt(byte[] secret, long second)
    {
        var counter = BitConverter.GetBytes(second / 30);
        Array.Reverse(counter);
#pragma warning disable CA5350 // the standard's own default, and what the apps use
        var hash = HMACSHA1.HashData(secret, counter);
#pragma warning restore CA5350
        var at = hash[^1] & 0xF;
        var number = ((hash[at] & 0x7F) << 24) | (hash[at + 1] << 16) | (hash[at + 2] << 8) | hash[at + 3];
        return $"{number % 1_000_000:000000}";
    }

    private static byte[] Base32(string letters)
    {
        var bits = string.Concat(letters.Select(letter =>
            Convert.ToString("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".IndexOf(letter, StringComparison.Ordinal), 2).PadLeft(5, '0')));
        return [.. bits.Chunk(8).Where(eight => eight.Length == 8).Select(eight => Convert.ToByte(new string(eight), 2))];
    }
}
