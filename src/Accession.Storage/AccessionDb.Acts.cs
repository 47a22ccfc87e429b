using System.Text.Json;
using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.Extensions.Logging;

namespace Accession.Storage;

public sealed partial class AccessionDb
{
    // With whose request it is: a context goes from one request to the next, and a condition must not.
    private (DbContextId Of, Func<CancellationToken, Task<Refusal?>> WhyNot)? _condition;

    /// <summary>
    /// Says what must hold for the act of this context to be carried out. It is asked inside the transaction, and only
    /// of a request that was not answered before.
    /// </summary>
    /// <param name="whyNot">Says why it does not hold; null when it does.</param>
    public void Provided(Func<CancellationToken, Task<Refusal?>> whyNot) => _condition = (ContextId, whyNot);

    /// <summary>
    /// Carries out one act of the herbarium: all of it in one short write transaction, or nothing. A request that comes
    /// again under its key is answered as before, without the verbs running again.
    /// </summary>
    /// <param name="door">Who asks, and under which request key.</param>
    /// <param name="act">The act; entries made by the verbs refer to it.</param>
    /// <param name="verbs">
    /// What is done. It may save to learn keys. When it refuses, nothing of what it did remains.
    /// </param>
    /// <param name="cancellation">Gives up before the transaction is committed.</param>
    public async Task<Outcome<T>> CarryOutAsync<T>(
        Door door, Act act, Func<Task<Outcome<T>>> verbs, CancellationToken cancellation)
    {
        try
        {
            return await TryCarryOutAsync(door, act, verbs, cancellation);
        }
        catch (DbUpdateException conflict) when (IsSomebodyFaster(conflict))
        {
            ChangeTracker.Clear();
            var earlier = await AnsweredAsync<T>(door, cancellation);
            SayWhoWasFaster(act, isSameRequest: earlier is not null);
            return earlier is not null
                ? earlier.Outcome
                : new Refusal(RefusalKind.Conflict,
                    "Somebody else changed this in the meantime. "
                    + "Nothing of yours was saved; look again and repeat it.");
        }
    }

    private async Task<Outcome<T>> TryCarryOutAsync<T>(
        Door door, Act act, Func<Task<Outcome<T>>> verbs, CancellationToken cancellation)
    {
        await using var transaction = await Database.BeginTransactionAsync(cancellation);
        // All of an act is kept or nothing: a point to go back to half way is never used.
        Database.AutoSavepointsEnabled = false;
        if (await AnsweredAsync<T>(door, cancellation) is { } earlier)
        {
            return earlier.Outcome;
        }

        if (_condition is { } condition && condition.Of == ContextId
            && await condition.WhyNot(cancellation) is { } outdated)
        {
            ChangeTracker.Clear();
            return outdated;
        }

        Add(act);
        var outcome = await verbs();
        if (outcome.IsRefused)
        {
            // The same request may have been sent again while its first sending was under way, and met its own deed.
            ChangeTracker.Clear();
            return await AnsweredAsync<T>(door, cancellation) is { } meanwhile ? meanwhile.Outcome : outcome;
        }

        if (door.RequestKey is not null)
        {
            act.Answered(JsonSerializer.Serialize(outcome.Value));
        }

        await SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
        bell.Ring(ChangeTracker.Entries<Work.WorkRow>().Select(entry => entry.Entity.Id));
        return outcome;
    }

    private async Task<Answered<T>?> AnsweredAsync<T>(Door door, CancellationToken cancellation)
    {
        if (door.RequestKey is null)
        {
            return null;
        }

        var earlier = await Acts
            .Where(act => act.ActorId == door.By.Id && act.RequestKey == door.RequestKey)
            .Select(act => new { act.Answer, act.RequestDigest })
            .FirstOrDefaultAsync(cancellation);
        if (earlier is null)
        {
            return null;
        }

        if (door.RequestDigest is not null && door.RequestDigest != earlier.RequestDigest)
        {
            return new(new Refusal(RefusalKind.Invalid,
                "Another request came under this Idempotency-Key before. Nothing was done; send this one under a key "
                + "of its own."));
        }

        return earlier.Answer is null ? null : new(JsonSerializer.Deserialize<T>(earlier.Answer)!);
    }

    // All that the log says of it: the store's own lines are turned down, because this is no fault.
    private void SayWhoWasFaster(Act act, bool isSameRequest)
    {
        var log = this.GetService<ILoggerFactory>().CreateLogger<AccessionDb>();
        if (isSameRequest)
        {
            log.LogInformation(
                "\"{What}\" came twice at once; the second was answered like the first.", act.What);
        }
        else
        {
            log.LogInformation("\"{What}\" was refused: somebody else was faster.", act.What);
        }
    }

    private bool IsSomebodyFaster(DbUpdateException exception) =>
        exception is DbUpdateConcurrencyException || database.IsUniqueViolation(exception);

    private sealed record Answered<T>(Outcome<T> Outcome);
}
