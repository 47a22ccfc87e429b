using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;

namespace Accession.Server.Tests.Docs;

/// <summary>What the documents tell people to send with curl is sent, in their order, and understood.</summary>
[Trait("Store", "sqlite")]
public sealed partial class CurlTests(ServerOnSqlite server) : IClassFixture<ServerOnSqlite>
{
    private const string List = "Collector,Number,Species,Sheets\nOrla Finch,101,Poa secunda J.Presl,3\n";

    // A rule may say no to an invented row or number; the request itself must be right.
    private static readonly HttpStatusCode[] Understood =
        [HttpStatusCode.OK, HttpStatusCode.Accepted, HttpStatusCode.Conflict, HttpStatusCode.UnprocessableEntity];

    [Fact]
    public async Task Every_request_is_understood()
    {
        using var program = await JsonProgram.DeviceAsync(server, "curl", [.. Rights.OfDevices]);
        var known = new Dictionary<string, string> { ["ACCESSION"] = "", ["TOKEN"] = program.Token! };
        var sent = 0;
        foreach (var (block, command) in CodeBlock.All().Where(block => block.Language == "bash")
            .SelectMany(block => block.Commands().Select(command => (block, command)))
            .Where(one => one.command.StartsWith("curl ", StringComparison.Ordinal)))
        {
            known["KEY"] = JsonProgram.Key();
            var answer = await program.SendAsync(Request(command, known));
            await server.WaitForWorkAsync();
            var isElsewhere = answer.Status == HttpStatusCode.NotFound && !answer.Text.Contains("row is not in this batch", StringComparison.Ordinal)
                && !answer.Text.Contains("is no number of ours", StringComparison.Ordinal);
            Assert.True(
                !isElsewhere && (Understood.Contains(answer.Status) || answer.Status == HttpStatusCode.NotFound),
                $"{block.File}, line {block.Line}: {command}\n{(int)answer.Status} {answer.Text}");
            Remember(known, answer);
            sent++;
        }

        Assert.True(sent >= 8, $"Only {sent} requests were found.");
    }

    private static void Remember(Dictionary<string, string> known, JsonAnswer answer)
    {
        if (answer.Body.ValueKind == System.Text.Json.JsonValueKind.Object
            && answer.Body.TryGetProperty("batchId", out var batch))
        {
            known["BATCH"] = batch.GetRawText();
        }

        if (answer.Tag is not null)
        {
            known["TAG"] = answer.Tag;
        }
    }

    private static HttpRequestMessage Request(string command, Dictionary<string, string> known)
    {
        var words = Word().Matches(command["curl ".Length..])
            .Select(word => word.Groups[2].Success
                ? word.Groups[2].Value   // as a shell does, nothing is put in between single quotes
                : Variable().Replace(word.Groups[1].Success ? word.Groups[1].Value : word.Value, name => known[name.Groups[1].Value]))
            .ToList();
        var request = new HttpRequestMessage();
        Dictionary<string, string> headers = [];
        for (var i = 0; i < words.Count; i++)
        {
            switch (words[i])
            {
                case "-X":
                    request.Method = new HttpMethod(words[++i]);
                    break;
                case "-H":
                    var header = words[++i].Split(": ", 2);
                    headers[header[0]] = header[1];
                    break;
                case "-d":
                    request.Content = new StringContent(words[++i], Encoding.UTF8);
                    break;
                case "--data-binary":
                    Assert.Equal("@list.csv", words[++i]);
                    request.Content = new StringContent(List, Encoding.UTF8);
                    break;
                case "-i":
                    break;
                default:
                    Assert.StartsWith("/api/", words[i], StringComparison.Ordinal);
                    request.RequestUri = new Uri(words[i], UriKind.Relative);
                    break;
            }
        }

        foreach (var (name, value) in headers)
        {
            if (name == "Content-Type")
            {
                request.Content!.Headers.ContentType = new(value);
            }
            else
            {
                request.Headers.TryAddWithoutValidation(name, value);
            }
        }

        return request;
    }

    [GeneratedRegex(@"\$([A-Z]+)")]
    private static partial Regex Variable();

    [GeneratedRegex("\"([^\"]*)\"|'([^']*)'|\\S+")]
    private static partial Regex Word();
}
