using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;
using MimeKit;

namespace Accession.Server.Tests.Mail;

/// <summary>
/// A mail server on loopback, as much of it as one needs to be sent letters (RFC 5321): it takes whatever it is given,
/// unless the test says otherwise.
/// </summary>
internal sealed class SmtpPeer : IAsyncDisposable
{
    /// <summary>A letter that was taken.</summary>
    public sealed record Taken(string To, MimeMessage Message);

    private readonly CancellationTokenSource _end = new();
    private readonly List<Task> _conversations = [];
    private TcpListener _door;
    private Task _listening = Task.CompletedTask;

    public SmtpPeer()
    {
        _door = new(IPAddress.Loopback, 0);
        _door.Start();
        Port = ((IPEndPoint)_door.LocalEndpoint).Port;
        _listening = ListenAsync(_door);
    }

    public int Port { get; }

    /// <summary>Every letter that it heard to its end, in order.</summary>
    public ConcurrentQueue<Taken> Letters { get; } = new();

    /// <summary>Every line it heard, the end of a letter as a dot.</summary>
    public ConcurrentQueue<string> Heard { get; } = new();

    /// <summary>What it says to a line instead of its own answer; null for that.</summary>
    public Func<string, CancellationToken, Task<string?>> Instead { get; set; } = (_, _) => Task.FromResult<string?>(null);

    /// <summary>Nobody listens any more.</summary>
    public async Task GoDownAsync()
    {
        _door.Stop();
        await _listening;
    }

    /// <summary>It listens again, on the same port.</summary>
    public void ComeUp()
    {
        _door = new(IPAddress.Loopback, Port);
        _door.Start();
        _listening = ListenAsync(_door);
    }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        _door.Stop();
        await _listening;
        await Task.WhenAll(_conversations);
        _end.Dispose();
    }

    private async Task ListenAsync(TcpListener door)
    {
        try
        {
            while (true)
            {
                _conversations.Add(ConverseAsync(await door.AcceptTcpClientAsync(_end.Token)));
            }
        }
        catch (Exception closed) when (closed is SocketException or OperationCanceledException or ObjectDisposedException)
        {
            // The door is closed.
        }
    }

    private async Task ConverseAsync(TcpClient client)
    {
        try
        {
            using (client)
            {
                var stream = client.GetStream();
                using var reader = new StreamReader(stream, Encoding.Latin1);
                await SayAsync(stream, "220 peer ready");
                var to = "";
                while (await reader.ReadLineAsync(_end.Token) is { } line)
                {
                    Heard.Enqueue(line);
                    var verb = line.Split(' ')[0].ToUpperInvariant();
                    to = verb == "RCPT" ? line.Split('<', '>')[1] : to;
                    var answer = await Instead(line, _end.Token) ?? Own(verb);
                    await SayAsync(stream, answer);
                    if (verb == "DATA" && answer.StartsWith("354", StringComparison.Ordinal))
                    {
                        await SayAsync(stream, await TakeAsync(reader, to));
                    }

                    if (verb == "QUIT")
                    {
                        return;
                    }
                }
            }
        }
        catch (Exception ended) when (ended is IOException or OperationCanceledException)
        {
            // The other side was killed, or the test is over.
        }
    }

    private async Task<string> TakeAsync(StreamReader reader, string to)
    {
        var text = new StringBuilder();
        while (await reader.ReadLineAsync(_end.Token) is { } line)
        {
            if (line == ".")
            {
                using var raw = new MemoryStream(Encoding.Latin1.GetBytes(text.ToString()));
                var message = await MimeMessage.LoadAsync(raw, _end.Token);
                Letters.Enqueue(new(to, message));
                Heard.Enqueue(line);
                return await Instead(line, _end.Token) ?? "250 taken";
            }

            text.Append(line.StartsWith('.') ? line[1..] : line).Append("\r\n");
        }

        throw new IOException("The letter broke off.");
    }

    private static string Own(string verb) => verb switch
    {
        "EHLO" => "250-peer\r\n250-AUTH PLAIN\r\n250-8BITMIME\r\n250 SIZE 10000000",
        "AUTH" => "235 welcome",
        "DATA" => "354 go on",
        "QUIT" => "221 bye",
        _ => "250 ok",
    };

    private async Task SayAsync(NetworkStream stream, string line) =>
        await stream.WriteAsync(Encoding.Latin1.GetBytes(line + "\r\n"), _end.Token);
}
