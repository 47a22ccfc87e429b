using Accession.Storage.Work;
using Hangfire;

namespace Accession.Server.Background;

/// <summary>Hands work over: at once when it is committed, and each quarter of a minute whatever nobody has.</summary>
internal sealed class Sweep(
    IBackgroundJobClient jobs, WorkBell bell, IServiceScopeFactory scopes, TimeProvider clock, ILogger<Sweep> log)
    : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(15);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        bell.Rung += HandOver;
        try
        {
            await LetGoOfTheDeadAsync(stoppingToken);
            while (!stoppingToken.IsCancellationRequested)
            {
                await SweepAsync(stoppingToken);
                await Task.Delay(Pause, clock, stoppingToken);
            }
        }
        catch (Exception stopped) when (stopped is OperationCanceledException or ObjectDisposedException
            && stoppingToken.IsCancellationRequested)
        {
            // The server stops, or could not start and was taken apart under the sweep; what is left lies in the table.
        }
        finally
        {
            bell.Rung -= HandOver;
        }
    }

    private async Task LetGoOfTheDeadAsync(CancellationToken cancellation)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var claims = scope.ServiceProvider.GetRequiredService<WorkClaims>();
            await claims.ReleaseOfDeadAsync(WorkOwner.IsDead, cancellation);
        }
        catch (Exception failure) when (failure is System.Data.Common.DbException)
        {
            log.LogWarning(failure, "What dead processes left behind waits for its leases.");
        }
    }

    private async Task SweepAsync(CancellationToken cancellation)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var claims = scope.ServiceProvider.GetRequiredService<WorkClaims>();
            foreach (var id in await claims.UnclaimedAsync(cancellation))
            {
                HandOver(id);
            }
        }
        catch (Exception failure) when (failure is System.Data.Common.DbException)
        {
            // The database may be restarting; the next sweep finds the same rows.
            log.LogWarning(failure, "The sweep could not read what work is waiting.");
        }
    }

    private void HandOver(long id) => jobs.Enqueue<RunWork>(work => work.RunAsync(id, CancellationToken.None));
}
