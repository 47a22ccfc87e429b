using Accession.Server.Background;
using Accession.Storage.Work;

namespace Accession.Server.Mail;

/// <summary>Sends a letter; while that cannot be, it is put off.</summary>
internal sealed class SendLetterWork(SendLetter send, MailTurn turn) : IWork
{
    public const string Kind = "send a letter";

    public async Task<string?> RunAsync(WorkProgress progress, CancellationToken cancellation)
    {
        if (!turn.TryTake())
        {
            throw new WorkMustWaitException("Another letter is being sent.");
        }

        try
        {
            // Whoever lost the work meanwhile learns it here, before the letter leaves.
            await progress.ReportAsync(0, 1, cancellation);
            if (await send.RunAsync(progress.Subject, cancellation) is { } later)
            {
                throw new WorkMustWaitException("The letter could not be sent now.", later);
            }

            return null;
        }
        finally
        {
            turn.GiveBack();
        }
    }
}
