using Accession.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Mail;

/// <summary>
/// Sends one letter and keeps what became of it. What was sent or refused before is not sent again; between the mail
/// server's yes and our own note of it lies one short transaction, and a power cut there lets one more copy out, under
/// the same message identifier.
/// </summary>
public sealed class SendLetter(
    AccessionDb db, IPost post, HoldMail hold, LetterMessages messages, IOptions<MailOptions> mail, TimeProvider clock,
    ILogger<SendLetter> log)
{
    private static readonly TimeSpan LookAgainWhileHeld = TimeSpan.FromMinutes(1);

    /// <summary>Sends it; answers when to try again, or null when nothing more is to be done.</summary>
    public async Task<DateTime?> RunAsync(long letterId, CancellationToken cancellation)
    {
        var letter = await db.Letters.Include(l => l.Act).SingleAsync(l => l.Id == letterId, cancellation);
        if (!letter.Waits)
        {
            return null;
        }

        if (await hold.CurrentAsync(cancellation) is not null)
        {
            return clock.GetUtcNow().UtcDateTime + LookAgainWhileHeld;
        }

        var answer = await post.SendAsync(messages.Of(letter), cancellation);
        var now = clock.GetUtcNow().UtcDateTime;
        switch (answer.Fate)
        {
            case LetterFate.Taken:
                letter.Sent(now);
                break;
            case LetterFate.Refused:
                letter.Refused(answer.Words, now);
                break;
            default:
                letter.CouldNotBeSent(answer.Words, now, mail.Value.FirstPause);
                break;
        }

        // What the server took is noted even while the program is being stopped.
        await db.SaveChangesAsync(CancellationToken.None);
        if (answer.Fate != LetterFate.Taken)
        {
            log.LogWarning(
                "Letter {Id} was not sent: {Why}", letter.Id, letter.RefusedBecause ?? letter.Trouble);
        }

        return letter.TryAgainAt;
    }
}
