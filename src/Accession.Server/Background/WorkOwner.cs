using System.Diagnostics;

namespace Accession.Server.Background;

/// <summary>The name under which this process holds work, and what can be told from the names of others.</summary>
internal static class WorkOwner
{
    private const int Longest = 40;

    public static string Me { get; } = Named(Environment.ProcessId, Guid.NewGuid());

    /// <summary>
    /// Whether an owner is a process of this machine that no longer runs. After a crash nobody has to wait for its
    /// lease; about other machines nothing is known, and their leases decide.
    /// </summary>
    public static bool IsDead(string owner)
    {
        var parts = owner.Split('/', 3);
        if (owner == Me || parts.Length < 3 || parts[2] != Me.Split('/', 3)[2] || !int.TryParse(parts[0], out var id))
        {
            return false;
        }

        // In a container every process has the same number: the one before this one is gone.
        return id == Environment.ProcessId || !IsRunning(id);
    }

    private static bool IsRunning(int id)
    {
        try
        {
            using var process = Process.GetProcessById(id);
            return !process.HasExited;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    private static string Named(int id, Guid once)
    {
        var name = $"{id}/{once.ToString("N")[..12]}/{Environment.MachineName.Replace('/', '-')}";
        return name.Length > Longest ? name[..Longest] : name;
    }
}
