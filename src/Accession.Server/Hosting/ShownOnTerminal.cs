using System.Globalization;

namespace Accession.Server.Hosting;

/// <summary>How far a command is, on a terminal; a file that hears its remarks is spared it.</summary>
internal sealed class ShownOnTerminal(TimeProvider clock)
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);

    private long _last = clock.GetTimestamp();
    private int _length;

    /// <summary>Writes over what was written last.</summary>
    public void Tell(Func<string> howFar)
    {
        if (!CommandTalk.IsWatched || clock.GetElapsedTime(_last) < Pause)
        {
            return;
        }

        var line = howFar();
        CommandTalk.Show($"\r{line.PadRight(_length)}");
        (_last, _length) = (clock.GetTimestamp(), line.Length);
    }

    /// <summary>Tells how many bytes are done.</summary>
    public void TellBytes(string doing, long done, long total) => Tell(
        () => string.Create(CultureInfo.InvariantCulture, $"{doing}: {done / 1e6:N0} of {total / 1e6:N0} MB"));

    /// <summary>Ends the line that was told.</summary>
    public void End()
    {
        if (_length > 0)
        {
            CommandTalk.Show(Environment.NewLine);
            _length = 0;
        }
    }
}
