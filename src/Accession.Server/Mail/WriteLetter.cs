using Accession.Core.Letters;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.Extensions.Options;

namespace Accession.Server.Mail;

/// <summary>
/// Writes a letter inside the transaction of the act that wants it, with the work that sends it: no letter without its
/// act, and no act without its letter.
/// </summary>
public sealed class WriteLetter(AccessionDb db, IOptions<MailOptions> mail)
{
    /// <summary>Where letters come from when nobody said; nobody can be reached there (RFC 2606, section 2).</summary>
    internal const string NoSender = "herbarium@no-address.invalid";

    /// <summary>Writes it, or says what is wrong with it.</summary>
    public async Task<Outcome<Letter>> WriteAsync(LetterDraft draft, Act act, CancellationToken cancellation)
    {
        var host = (mail.Value.From ?? NoSender).Split('@')[^1];
        var letter = Letter.Write(draft, $"{Guid.NewGuid():N}@{host}", act);
        if (letter.IsRefused)
        {
            return letter;
        }

        db.Add(letter.Value);
        await db.SaveChangesAsync(cancellation);
        db.Add(WorkRow.Wanted(SendLetterWork.Kind, letter.Value.Id, act));
        return letter;
    }
}
