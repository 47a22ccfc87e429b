using Accession.Core.Letters;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mail;

/// <summary>
/// Holds all mail, and lets it go. A register that was restored holds its mail: letters that wait in it may have gone
/// out before. Letters can be written meanwhile; they wait with the others.
/// </summary>
public sealed class HoldMail(AccessionDb db, WorkClaims claims, WorkBell bell, TimeProvider clock)
{
    /// <summary>Since when the mail is held, by whom and why.</summary>
    public sealed record Held(DateTime Since, string By, string? Why);

    /// <summary>Why nothing is sent now; null when letters go out.</summary>
    public Task<Held?> CurrentAsync(CancellationToken cancellation) =>
        db.MailHolds.Where(hold => hold.ReleasedActId == null).OrderBy(hold => hold.Id)
            .Select(hold => new Held(hold.Act.At, hold.Act.ActorName, hold.Act.Reason))
            .FirstOrDefaultAsync(cancellation);

    /// <summary>
    /// Holds the mail from now on; where it is held already, it stays so. Answers with how many letters wait.
    /// </summary>
    public Task<Outcome<int>> HoldMailAsync(string? why, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "hold the mail", clock.GetUtcNow().UtcDateTime, why);
        return db.CarryOutAsync<int>(
            door, act,
            async () =>
            {
                if (WhyNot(door) is { } refusal)
                {
                    return refusal;
                }

                if (act.Reason is null)
                {
                    return new Refusal(RefusalKind.Invalid, "Write why the mail is held: others will ask.");
                }

                if (await CurrentAsync(cancellation) is null)
                {
                    db.Add(MailHold.Begin(act));
                }

                return await WaitingAsync(cancellation);
            },
            cancellation);
    }

    /// <summary>Lets the mail go: what waits is sent at once. Answers with how many letters waited.</summary>
    public async Task<Outcome<int>> ReleaseMailAsync(Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "let the mail go", clock.GetUtcNow().UtcDateTime);
        var outcome = await db.CarryOutAsync<int>(
            door, act,
            async () =>
            {
                if (WhyNot(door) is { } refusal)
                {
                    return refusal;
                }

                var holds = await db.MailHolds.Where(hold => hold.ReleasedActId == null).ToListAsync(cancellation);
                if (holds.Count == 0)
                {
                    return new Refusal(RefusalKind.Conflict, "The mail is not held: somebody let it go already.");
                }

                holds.ForEach(hold => hold.Release(act));
                return await WaitingAsync(cancellation);
            },
            cancellation);
        if (!outcome.IsRefused)
        {
            bell.Ring(await claims.WakeAsync(SendLetterWork.Kind, cancellation));
        }

        return outcome;
    }

    private static Refusal? WhyNot(Door door) => door.By.Roles.Contains(Role.Administrator)
        ? null
        : new(RefusalKind.NotAllowed, "The mail is held and let go by administrators.");

    private Task<int> WaitingAsync(CancellationToken cancellation) =>
        db.Letters.CountAsync(letter => letter.SentAt == null && letter.RefusedAt == null, cancellation);
}
