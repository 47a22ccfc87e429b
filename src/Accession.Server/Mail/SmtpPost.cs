using System.Globalization;
using System.Net.Sockets;
using MailKit.Net.Smtp;
using MailKit.Security;
using Microsoft.Extensions.Options;
using MimeKit;

namespace Accession.Server.Mail;

/// <summary>
/// Hands letters to a mail server, a connection for each: they are few, and one that goes wrong spoils no other.
/// Nothing of the conversation is logged.
/// </summary>
internal sealed class SmtpPost(IOptions<MailOptions> options) : IPost
{
    private static readonly TimeSpan GoodbyeLasts = TimeSpan.FromSeconds(2);

    private MailOptions Mail => options.Value;

    public async Task<PostAnswer> SendAsync(MimeMessage letter, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(Mail.Timeout);
        using var client = new SmtpClient();
        try
        {
            await client.ConnectAsync(Mail.Host!, Mail.Port, Options(Mail.Security), limit.Token);
            if (Mail.User is not null)
            {
                await client.AuthenticateAsync(Mail.User, Mail.ReadPassword() ?? "", limit.Token);
            }

            await client.SendAsync(letter, limit.Token);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            return PostAnswer.NotNow(string.Create(
                CultureInfo.InvariantCulture, $"The mail server was not done within {Mail.TimeoutSeconds} seconds."));
        }
        catch (Exception failure) when (Answer(failure) is not null)
        {
            return Answer(failure)!;
        }

        await SayGoodbyeAsync(client, cancellation);
        return PostAnswer.Taken;
    }

    // The server has the letter: whatever goes wrong now is no reason to send it again.
    private static async Task SayGoodbyeAsync(SmtpClient client, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(GoodbyeLasts);
        try
        {
            await client.DisconnectAsync(quit: true, limit.Token);
        }
        catch (Exception failure) when (failure is OperationCanceledException || Answer(failure) is not null)
        {
            // The connection ends with the client.
        }
    }

    private static PostAnswer? Answer(Exception failure) => failure switch
    {
        // A sender that is refused is a setting of ours: later letters would be refused as well, and none is to blame.
        SmtpCommandException { ErrorCode: SmtpErrorCode.SenderNotAccepted } sender => PostAnswer.NotNow(
            $"The mail server takes no letters from Mail:From: {Words(sender)}"),
        SmtpCommandException
        {
            StatusCode: >= (SmtpStatusCode)500,
            ErrorCode: SmtpErrorCode.RecipientNotAccepted or SmtpErrorCode.MessageNotAccepted,
        } refused => PostAnswer.Refused($"The mail server refused it: {Words(refused)}"),
        SmtpCommandException later => PostAnswer.NotNow($"The mail server did not take it: {Words(later)}"),
        AuthenticationException => PostAnswer.NotNow(
            "The mail server did not let us in; see Mail:User and its password."),
        SslHandshakeException or NotSupportedException => PostAnswer.NotNow(
            "The connection to the mail server could not be made safe; see Mail:Security and the server's "
            + "certificate."),
        SmtpProtocolException => PostAnswer.NotNow("The mail server broke the conversation off."),
        SocketException or IOException or MailKit.ServiceNotConnectedException => PostAnswer.NotNow(
            "The mail server cannot be reached; see Mail:Host and Mail:Port."),
        UnauthorizedAccessException => PostAnswer.NotNow("Mail:PasswordFile cannot be read any more."),
        _ => null,
    };

    private static string Words(SmtpCommandException said) =>
        string.Create(CultureInfo.InvariantCulture, $"{(int)said.StatusCode} {said.Message}");

    private static SecureSocketOptions Options(MailSecurity security) => security switch
    {
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        MailSecurity.None => SecureSocketOptions.None,
        _ => SecureSocketOptions.StartTls,
    };
}
