using Accession.Server.Hosting;
using MimeKit;

namespace Accession.Server.Mail;

/// <summary>
/// Writes each letter as an <c>.eml</c> file into the data folder, for trying the program out and for those who carry
/// letters to a mail program by hand. A file has its name only when it is whole; the name comes from the message
/// identifier, so a letter that is written twice is one file all the same.
/// </summary>
internal sealed class FilePost(DataFolder folder) : IPost
{
    public async Task<PostAnswer> SendAsync(MimeMessage letter, CancellationToken cancellation)
    {
        try
        {
            var file = Path.Combine(folder.MailOut, $"{letter.MessageId!.Split('@')[0]}.eml");
            var part = $"{file}.part";
            await using (var content = new FileStream(part, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                await letter.WriteToAsync(content, cancellation);
                content.Flush(flushToDisk: true);
            }

            File.Move(part, file, overwrite: true);
            return PostAnswer.Taken;
        }
        catch (Exception full) when (full is IOException or UnauthorizedAccessException)
        {
            return PostAnswer.NotNow("The letter could not be written into the folder mail/out of the data folder.");
        }
    }
}
