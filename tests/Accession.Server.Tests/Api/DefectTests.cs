using System.Net;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class DefectOnSqlite(TalkativeOnSqlite server) : DefectTests(server), IClassFixture<TalkativeOnSqlite>;

[Trait("Store", "postgres")]
public sealed class DefectOnPostgreSql(TalkativeOnPostgreSql server)
    : DefectTests(server), IClassFixture<TalkativeOnPostgreSql>;

/// <summary>A defect is told with a reference and nothing else; on a register of its own, which is damaged for it.</summary>
public abstract class DefectTests(TestServer server)
{
    [Fact]
    public async Task What_is_read_out_stands_in_the_log_and_says_nothing_of_the_inside()
    {
        using var program = await JsonProgram.DeviceAsync(
            server, "Defect", [Right.KeepNumbers]);
        await program.PostAsync("/api/v1/series", new { name = "Sheets DEF", use = "specimens", pattern = "DEF0000000" });
        await program.PostAsync("/api/v1/rolls", new { name = "Roll DEF", first = "DEF0000001", last = "DEF0000009" });
        await server.InRegisterAsync(db => db.Series.ExecuteUpdateAsync(
            row => row.SetProperty(series => series.PatternText, "no pattern")));
        using var listener = new Listener();
        server.App.Services.GetRequiredService<ILoggerFactory>().AddProvider(listener);

        var answer = await program.GetAsync("/api/v1/rolls");

        Assert.Equal(HttpStatusCode.InternalServerError, answer.Status);
        Assert.Equal("application/problem+json", answer.MediaType);
        var reference = answer.Body.GetProperty("reference").GetString()!;
        Assert.NotEmpty(reference);
        Assert.Contains(listener.Lines, line =>
            line.Contains(reference, StringComparison.Ordinal) && line.Contains("InvalidOperationException", StringComparison.Ordinal));
        Assert.DoesNotContain("Exception", answer.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", answer.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("no pattern", answer.Text, StringComparison.Ordinal);
    }
}
