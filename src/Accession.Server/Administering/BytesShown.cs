using System.Globalization;

namespace Accession.Server.Administering;

/// <summary>How far a command is, on a terminal; a file that hears its errors is spared it.</summary>
internal sealed class BytesShown(TimeProvider clock)
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);

    private long _last = clock.GetTimestamp();
    private bool _isSaid;

    public void Tell(string doing, long done, long total)
    {
        if (Console.IsErrorRedirected || clock.GetElapsedTime(_last) < Pause)
        {
            return;
        }

        (_last, _isSaid) = (clock.GetTimestamp(), true);
        Console.Error.Write(string.Create(
            CultureInfo.InvariantCulture, $"\r{doing}: {done / 1e6:N0} of {total / 1e6:N0} MB "));
    }

    /// <summary>Ends the line that was told.</summary>
    public void End()
    {
        if (_isSaid)
        {
            Console.Error.WriteLine();
        }
    }
}
