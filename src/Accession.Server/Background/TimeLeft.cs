namespace Accession.Server.Background;

/// <summary>How long work will still take, reckoned from how long it took so far.</summary>
public static class TimeLeft
{
    private static readonly TimeSpan TooShortToTell = TimeSpan.FromSeconds(5);

    /// <summary>An estimate in words; null while too little is known.</summary>
    /// <param name="done">How many pieces are done.</param>
    /// <param name="total">How many there are.</param>
    /// <param name="took">How long those took.</param>
    public static string? Of(long done, long total, TimeSpan took)
    {
        if (done <= 0 || done >= total || took < TooShortToTell)
        {
            return null;
        }

        var minutes = took.TotalMinutes / done * (total - done);
        return minutes switch
        {
            < 1 => "less than a minute left",
            1 => "about a minute left",
            < 90 => $"about {Math.Ceiling(minutes):0} minutes left",
            _ => $"about {Math.Ceiling(minutes / 60):0} hours left",
        };
    }
}
