using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.Logging;

namespace Accession.Storage.Databases;

/// <summary>
/// A save that fails is thrown, and whoever catches it says what it means. Said by the store as well, with its stack, a
/// request that came twice at once would stand in the log as a fault.
/// </summary>
public static class QuietFailures
{
    /// <summary>Leaves it to the caller to tell of a save that failed; at debug level the store still does.</summary>
    public static DbContextOptionsBuilder LeaveFailuresToCallers(this DbContextOptionsBuilder options) =>
        options.ConfigureWarnings(events => events.Log(
            (CoreEventId.SaveChangesFailed, LogLevel.Debug), (RelationalEventId.CommandError, LogLevel.Debug)));
}
