using System.Net;
using Accession.Core.Outcomes;

namespace Accession.Server.Tests.Ground;

/// <summary>People whom an administrator lets in through the page, each with an account of their own.</summary>
internal static class Newcomers
{
    /// <summary>Somebody new, signed in by the link that the page showed once.</summary>
    public static async Task<Newcomer> LetInAsync(
        TestServer server, string name, Role role, string counties = "")
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var userName = $"{Guid.NewGuid():N}@example.org";
        var made = await administrator.SubmitAsync(
            await administrator.GetPageAsync("/accounts"), "form.form",
            [("DisplayName", name), ("UserName", userName), ("Roles", role.ToString()), ("Counties", counties)]);
        Assert.Empty(made.Refusals);
        var link = new Uri(made.One(".said code").TextContent).AbsolutePath;
        var visitor = server.Stranger();
        Assert.Equal(HttpStatusCode.Found, (await visitor.ComeInAsync(link)).Status);
        var id = await server.InRegisterAsync(db => Task.FromResult(db.Users.Single(u => u.UserName == userName).Id));
        return new(id, userName, visitor);
    }
}

/// <summary>Somebody new.</summary>
internal sealed record Newcomer(string Id, string UserName, Visitor Visitor) : IDisposable
{
    /// <summary>Comes in again after signing out, by another link from an administrator.</summary>
    public async Task ComeBackAsync(TestServer server)
    {
        using var administrator = await server.SignInAsync(Role.Administrator);
        var page = await administrator.GetPageAsync("/accounts");
        var form = page.All("form").First(f => f.OuterHtml.Contains(Id, StringComparison.Ordinal)
            && f.GetAttribute("action")!.EndsWith("handler=Link", StringComparison.Ordinal));
        form.SetAttribute("data-of", Id);
        var made = await administrator.SubmitAsync(page, $"form[data-of='{Id}']");
        var link = new Uri(made.One(".said code").TextContent).AbsolutePath;
        Assert.Equal(HttpStatusCode.Found, (await Visitor.ComeInAsync(link)).Status);
    }

    public void Dispose() => Visitor.Dispose();
}
