using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Work;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Background;

/// <summary>
/// Runs work that a command wrote itself. A server may run beside it and take the work first: then its progress is
/// followed until it is done.
/// </summary>
internal sealed class OwnWork(IServiceScopeFactory scopes, RunWork run, TimeProvider clock)
{
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(300);

    // Half a minute in which it waits for something that nobody does.
    private const int MostLooks = 100;

    /// <summary>Works until nothing is left.</summary>
    /// <param name="left">What is unfinished of that which the command waits for; asked again and again.</param>
    /// <param name="shown">Where it is told how far that is.</param>
    /// <param name="cancellation">Gives up; what is left waits for a server, or for the same command.</param>
    /// <returns>Whether all of it was done; somebody may have let it rest, or it waits for other work.</returns>
    public async Task<bool> FinishAsync(
        Func<AccessionDb, IQueryable<WorkRow>> left, ShownOnTerminal shown, CancellationToken cancellation)
    {
        await LetGoOfTheDeadAsync(cancellation);
        var idle = 0;
        while (await LookAsync(left, cancellation) is { } work)
        {
            if (work.Rests || idle > MostLooks)
            {
                return false;
            }

            await FollowAsync(work.Id, run.RunAsync(work.Id, cancellation), shown, cancellation);
            if (await OfAsync(work.Id, cancellation) is { IsFinished: false } still)
            {
                idle = still.LeaseUntil is null ? idle + 1 : 0;
                await Task.Delay(Look, clock, cancellation);
            }
        }

        cancellation.ThrowIfCancellationRequested();
        return true;
    }

    private async Task LetGoOfTheDeadAsync(CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<WorkClaims>()
            .ReleaseOfDeadAsync(WorkOwner.IsDead, cancellation);
    }

    private async Task<ShownProgress?> LookAsync(
        Func<AccessionDb, IQueryable<WorkRow>> left, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        var next = await left(db).OrderBy(work => work.Id).Select(work => (long?)work.Id)
            .FirstOrDefaultAsync(cancellation);
        return next is { } id ? await ShownProgress.OfAsync(db, id, cancellation) : null;
    }

    private async Task<ShownProgress?> OfAsync(long id, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        return await ShownProgress.OfAsync(
            scope.ServiceProvider.GetRequiredService<AccessionDb>(), id, cancellation);
    }

    private async Task FollowAsync(long id, Task running, ShownOnTerminal shown, CancellationToken cancellation)
    {
        while (!running.IsCompleted && CommandTalk.IsWatched)
        {
            await Task.WhenAny(running, Task.Delay(Look, clock, cancellation));
            await ShowAsync(id, shown, CancellationToken.None);
        }

        await running;
        if (CommandTalk.IsWatched)
        {
            await ShowAsync(id, shown, cancellation);
        }
    }

    private async Task ShowAsync(long id, ShownOnTerminal shown, CancellationToken cancellation)
    {
        if (await OfAsync(id, cancellation) is { } work)
        {
            shown.Tell(() => $"{work.Kind}: {work.Count}{(work.Left is { } left ? $", {left}" : "")}");
        }
    }
}
