using System.Net;
using System.Text;
using Accession.Core.Letters;
using Accession.Server.Hosting;
using Microsoft.Extensions.Options;
using MimeKit;

namespace Accession.Server.Mail;

/// <summary>Makes of a letter what travels: text and the same as HTML, the same identifier in every try.</summary>
public sealed class LetterMessages(IOptions<MailOptions> mail, IOptions<InstitutionOptions> house)
{
    public MimeMessage Of(Letter letter)
    {
        var message = new MimeMessage
        {
            MessageId = letter.MessageId,
            Date = new DateTimeOffset(letter.Act.At, TimeSpan.Zero),
            Subject = letter.Subject,
            Body = new BodyBuilder { TextBody = letter.Text + "\n", HtmlBody = Html(letter) }.ToMessageBody(),
        };
        message.From.Add(Named(mail.Value.From ?? WriteLetter.NoSender));
        if (mail.Value.ReplyTo is { } answers)
        {
            message.ReplyTo.Add(Named(answers));
        }

        message.To.Add(new MailboxAddress(null, letter.To));
        message.Headers.Add("Auto-Submitted", "auto-generated");
        return message;
    }

    private MailboxAddress Named(string address) => new(house.Value.Name, address);

    // A paragraph whose lines are set in by blanks keeps them: two labels stand under one another.
    private static string Html(Letter letter)
    {
        var html = new StringBuilder($"""
            <!DOCTYPE html>
            <html lang="en"><head><meta charset="utf-8"><title>{Escaped(letter.Subject)}</title></head>
            <body>

            """);
        foreach (var paragraph in letter.Text.Split("\n\n", StringSplitOptions.RemoveEmptyEntries))
        {
            var text = paragraph.Trim('\n');
            html.AppendLine(text.StartsWith(' ')
                ? $"<pre>{Escaped(text)}</pre>"
                : $"<p>{Escaped(text).Replace("\n", "<br>\n", StringComparison.Ordinal)}</p>");
        }

        return html.Append("</body></html>\n").ToString();
    }

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);
}
