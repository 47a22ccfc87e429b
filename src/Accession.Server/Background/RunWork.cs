using Accession.Storage.Work;
using Hangfire;

namespace Accession.Server.Background;

/// <summary>
/// The one method that Hangfire calls. It claims the row, does the work and ends it; a row that Hangfire runs twice,
/// late or not at all does no harm, because only the row says what is done.
/// </summary>
public sealed class RunWork(IServiceScopeFactory scopes, WorkBell bell, ILogger<RunWork> log)
{
    private static string Owner => WorkOwner.Me;

    [AutomaticRetry(Attempts = 0)]
    public async Task RunAsync(long id, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var claims = scope.ServiceProvider.GetRequiredService<WorkClaims>();
        if (await claims.ClaimAsync(id, Owner, cancellation) is not { } work)
        {
            return;
        }

        if (work.StopActId is not null)
        {
            await StopAsync(claims, work, cancellation);
            return;
        }

        // Work that takes its process down with it never comes to the end of an attempt.
        if (work.Attempts > WorkClaims.MostAttempts)
        {
            await GiveUpAsync(claims, work);
            return;
        }

        try
        {
            var kind = scope.ServiceProvider.GetRequiredKeyedService<IWork>(work.Kind);
            var result = await kind.RunAsync(new WorkProgress(work, Owner, claims), cancellation);
            await claims.FinishAsync(id, Owner, result, cancellation);
            // Work that had to wait for this one can begin now; nobody should wait for the sweep.
            bell.Ring(await claims.UnclaimedAsync(cancellation));
        }
        catch (WorkStoppedException)
        {
            await StopAsync(claims, work, CancellationToken.None);
        }
        catch (WorkMustWaitException wait)
        {
            await claims.PutOffAsync(id, Owner, wait.Until, CancellationToken.None);
        }
        catch (WorkLostException lost)
        {
            log.LogWarning("{Message}", lost.Message);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            await claims.ReleaseAsync(id, Owner, CancellationToken.None);
        }
        catch (Exception failure) when (failure is not OutOfMemoryException)
        {
            await GiveUpOrReleaseAsync(claims, work, failure);
        }
    }

    private async Task StopAsync(WorkClaims claims, WorkRow work, CancellationToken cancellation)
    {
        await claims.StopAsync(work.Id, Owner, WorkStop.Of(work.Kind).IsForGood, cancellation);
        bell.Ring(await claims.UnclaimedAsync(cancellation));
    }

    private async Task GiveUpOrReleaseAsync(WorkClaims claims, WorkRow work, Exception failure)
    {
        log.LogError(failure, "Work {Id} ({Kind}) stopped in attempt {Attempt}.", work.Id, work.Kind, work.Attempts);
        if (work.Attempts < WorkClaims.MostAttempts)
        {
            await claims.ReleaseAsync(work.Id, Owner, CancellationToken.None);
            return;
        }

        await GiveUpAsync(claims, work);
    }

    private static Task GiveUpAsync(WorkClaims claims, WorkRow work) => claims.FailAsync(
        work.Id, Owner,
        $"It stopped {WorkClaims.MostAttempts} times and was given up. "
        + $"Tell an administrator: work {work.Id} in the log.",
        CancellationToken.None);
}
