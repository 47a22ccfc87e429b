using System.Net;
using System.Text;
using Accession.Server.Tests.Ground;
using Accession.Storage.Accounts;
using Accession.Tests;
using Accession.Tests.Stores;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Api;

[Trait("Store", "sqlite")]
public sealed class RequestKeyOnSqlite(ServerOnSqlite server) : RequestKeyTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class RequestKeyOnPostgreSql(ServerOnPostgreSql server)
    : RequestKeyTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A request that is sent again does nothing again, and its key is good for no other.</summary>
public abstract class RequestKeyTests(TestServer server)
{
    private const string List = "Collector,Number,Species\nA. Quill,1,Poa secunda J.Presl\n";

    [Fact]
    public async Task A_list_sent_twice_is_one_list_and_one_answer()
    {
        using var program = await JsonProgram.DeviceAsync(server, "Sender", [Right.SendLists]);
        var (key, source) = (JsonProgram.Key(), $"Twice {Guid.NewGuid():N}");

        var first = await program.SendListAsync(source, List, key);
        var second = await program.SendListAsync(source, List, key);

        Assert.Equal(HttpStatusCode.Accepted, first.Status);
        Assert.Equal((first.Status, first.Text), (second.Status, second.Text));
        Assert.Equal(1, await ListsOfAsync(source));
    }

    [Fact]
    public async Task The_same_key_with_another_list_address_or_question_is_refused()
    {
        using var program = await JsonProgram.DeviceAsync(server, "Sender", [Right.SendLists]);
        var (key, source) = (JsonProgram.Key(), $"Changed {Guid.NewGuid():N}");
        var first = await program.SendListAsync(source, List, key);
        var path = first.Headers.Location!.OriginalString;

        var body = await program.SendListAsync(source, List + "A. Quill,2,Poa secunda J.Presl\n", key);
        var question = await program.SendListAsync($"{source} 2", List, key);
        var address = await program.PostAsync(
            $"{path}/lists", new StringContent(List, Encoding.UTF8, "text/csv"), key);

        Assert.All([body, question, address], answer =>
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
            Assert.Contains("Another request came under this Idempotency-Key", answer.Detail, StringComparison.Ordinal);
        });
        Assert.Equal(1, await ListsOfAsync(source));
        Assert.Equal(0, await ListsOfAsync($"{source} 2"));
    }

    [Fact]
    public async Task The_same_key_of_somebody_else_is_another_key()
    {
        using var one = await JsonProgram.DeviceAsync(server, "Sender 1", [Right.SendLists]);
        using var other = await JsonProgram.DeviceAsync(server, "Sender 2", [Right.SendLists]);
        var (key, source) = (JsonProgram.Key(), $"Both {Guid.NewGuid():N}");

        await one.SendListAsync(source, List, key);
        var answer = await other.SendListAsync($"{source} 2", List, key);

        Assert.Equal(HttpStatusCode.Accepted, answer.Status);
        Assert.Equal(1, await ListsOfAsync($"{source} 2"));
    }

    [Fact]
    public async Task Sent_many_times_at_once_it_is_done_once_and_nobody_hears_anything_else()
    {
        using var program = await JsonProgram.DeviceAsync(server, "Sender", [Right.SendLists]);
        var (key, source) = (JsonProgram.Key(), $"At once {Guid.NewGuid():N}");

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(
            _ => Task.Run(() => program.SendListAsync(source, List, key))));

        Assert.Equal(1, await ListsOfAsync(source));
        Assert.All(answers, answer => Assert.True(
            answer.Status is HttpStatusCode.Accepted or HttpStatusCode.Conflict, answer.Text));
        Assert.Single(answers.Where(answer => answer.Status == HttpStatusCode.Accepted).Select(a => a.Text).Distinct());
        Assert.All(answers.Where(answer => answer.Status == HttpStatusCode.Conflict), answer =>
        {
            Assert.Contains("still under way", answer.Detail, StringComparison.Ordinal);
            Assert.Equal(TimeSpan.FromSeconds(1), answer.Headers.RetryAfter!.Delta);
        });
    }

    [Fact]
    public async Task While_the_first_is_still_sending_the_second_is_told_so()
    {
        using var program = await JsonProgram.DeviceAsync(server, "Sender", [Right.SendLists]);
        SlowList slow;
        Task<JsonAnswer> first;
        JsonAnswer second;
        while (true)
        {
            var (key, source) = (JsonProgram.Key(), $"Slow {Guid.NewGuid():N}");
            slow = new SlowList(Encoding.UTF8.GetBytes(List));
            first = program.PostAsync(
                $"/api/v1/batches?source={Uri.EscapeDataString(source)}&fileName=list.csv", slow, key);
            await slow.HasBegun;
            // Begun at this end is not begun at the other; until then the same key is free.
            var tries = 0;
            do
            {
                await Task.Delay(20);
                second = await program.PostAsync(
                    "/api/v1/batches?source=", new StringContent("", Encoding.UTF8, "text/csv"), key);
            }
            while (second.Status == HttpStatusCode.UnprocessableEntity && ++tries < 50);
            if (second.Status != HttpStatusCode.UnprocessableEntity)
            {
                break;
            }

            // One of these was under way as the first came, so it was the first that was told so: once more.
            slow.GoOn();
            await first;
        }

        slow.GoOn();

        Assert.Equal(HttpStatusCode.Conflict, second.Status);
        Assert.Equal(HttpStatusCode.Accepted, (await first).Status);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("0123456789012345678901234567890123456789012345678901234567890123456789012345678901")]
    public async Task A_post_without_a_key_of_its_own_is_not_read(string? key)
    {
        using var program = await JsonProgram.DeviceAsync(server, "Sender", [Right.SendLists]);

        var answer = await program.PostAsync(
            "/api/v1/batches?source=Nobody", new StringContent(List, Encoding.UTF8, "text/csv"), key);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Contains("Idempotency-Key", answer.Detail, StringComparison.Ordinal);
    }

    private Task<int> ListsOfAsync(string source) => server.InRegisterAsync(
        db => db.Lists.CountAsync(list => list.Batch.Source.Name == source));

    private sealed class SlowList(byte[] bytes) : HttpContent
    {
        private readonly TaskCompletionSource _begun = new();
        private readonly TaskCompletionSource _goOn = new();

        public Task HasBegun => _begun.Task;

        public void GoOn() => _goOn.SetResult();

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            Headers.ContentType = new("text/csv");
            await stream.WriteAsync(bytes.AsMemory(0, 10));
            await stream.FlushAsync();
            _begun.SetResult();
            await _goOn.Task;
            await stream.WriteAsync(bytes.AsMemory(10));
        }

        protected override bool TryComputeLength(out long length)
        {
            length = bytes.Length;
            return true;
        }
    }
}
