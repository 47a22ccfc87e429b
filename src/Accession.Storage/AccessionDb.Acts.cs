using System.Text.Json;
using Accession.Core.Outcomes;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage;

public sealed partial class AccessionDb
{
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
            return await AnsweredAsync<T>(door, cancellation) is { } earlier
                ? earlier.Value!
                : new Refusal(RefusalKind.Conflict,
                    "Somebody else changed this in the meantime. "
                    + "Nothing of yours was saved; look again and repeat it.");
        }
    }

    private async Task<Outcome<T>> TryCarryOutAsync<T>(
        Door door, Act act, Func<Task<Outcome<T>>> verbs, CancellationToken cancellation)
    {
        await using var transaction = await Database.BeginTransactionAsync(cancellation);
        if (await AnsweredAsync<T>(door, cancellation) is { } earlier)
        {
            return earlier.Value!;
        }

        Add(act);
        var outcome = await verbs();
        if (outcome.IsRefused)
        {
            // The same request may have been sent again while its first sending was under way, and met its own deed.
            ChangeTracker.Clear();
            return await AnsweredAsync<T>(door, cancellation) is { } meanwhile ? meanwhile.Value! : outcome;
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

        var answer = await Acts
            .Where(act => act.ActorId == door.By.Id && act.RequestKey == door.RequestKey)
            .Select(act => act.Answer)
            .FirstOrDefaultAsync(cancellation);
        return answer is null ? null : new Answered<T>(JsonSerializer.Deserialize<T>(answer));
    }

    private bool IsSomebodyFaster(DbUpdateException exception) =>
        exception is DbUpdateConcurrencyException || database.IsUniqueViolation(exception);

    private sealed record Answered<T>(T? Value);
}
