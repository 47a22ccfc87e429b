using System.Threading.RateLimiting;

namespace Accession.Server.Hosting;

/// <summary>
/// How often one address may come with a token that opens nothing. A token that opens is never held up: a program that
/// was set up wrongly must not shut out the one beside it.
/// </summary>
internal sealed class FailingTokens : IAsyncDisposable
{
    /// <summary>How many in a minute; a program that tries once in two seconds never notices.</summary>
    public const int AMinute = 30;

    private readonly PartitionedRateLimiter<string> _tries = PartitionedRateLimiter.Create<string, string>(
        address => RateLimitPartition.GetFixedWindowLimiter(
            address,
            _ => new FixedWindowRateLimiterOptions { PermitLimit = AMinute, Window = TimeSpan.FromMinutes(1) }));

    /// <summary>Counts one; false when there were too many.</summary>
    public bool MayTryAgain(HttpContext context)
    {
        using var lease = _tries.AttemptAcquire(context.Connection.RemoteIpAddress?.ToString() ?? "unknown");
        return lease.IsAcquired;
    }

    public ValueTask DisposeAsync() => _tries.DisposeAsync();
}
