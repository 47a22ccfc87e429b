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

    /// <summary>Works until nothing is left.</summary>
    /// <param name="left">What is unfinished of that which the command waits for; asked again and again.</param>
    /// <param name="shown">Where it is told how far that is.</param>
    /// <param name="cancellation">Gives up; what is left waits for a server, or for the same command.</param>
    /// <returns>Whether all of it was done; somebody may have let it rest.</returns>
    public async Task<bool> FinishAsync(
        Func<AccessionDb, IQueryable<WorkRow>> left, ShownOnTerminal shown, CancellationToken cancellation)
    {
        await LetGoOfTheDeadAsync(cancellation);
        while (await LookAsync(left, cancellation) is { } work)
        {
            if (work.Rests)
            {
                return false;
            }

            await FollowAsync(work.Id, run.RunAsync(work.Id, cancellation), shown, cancellation);
            if (await StillAsync(work, cancellation))
            {
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

    // Whether somebody else has it, or it waits: then it is looked at again in a moment.
    private async Task<bool> StillAsync(ShownProgress work, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        return await ShownProgress.OfAsync(db, work.Id, cancellation) is { IsFinished: false };
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
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<AccessionDb>();
        if (await ShownProgress.OfAsync(db, id, cancellation) is { } work)
        {
            shown.Tell(() => $"{work.Kind}: {work.Count}{(work.Left is { } left ? $", {left}" : "")}");
        }
    }
}
