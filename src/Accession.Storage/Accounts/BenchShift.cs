using Accession.Core.Outcomes;

namespace Accession.Storage.Accounts;

/// <summary>
/// Somebody took up work by badge in the session of somebody who is signed in. Scans name the shift they were made in,
/// so that those which come late, or twice, bear the name of whoever made them.
/// </summary>
public sealed class BenchShift
{
    /// <summary>How old the note of the last scan may grow before it is written again.</summary>
    public static readonly TimeSpan ScanIsNotedEvery = TimeSpan.FromSeconds(20);

    private BenchShift()
    {
    }

    public long Id { get; private set; }

    /// <summary>The key of the scan that began it, by which the scans after it name it.</summary>
    public string Key { get; private set; } = "";

    /// <summary>The account in whose session it was begun; in another its key says nothing.</summary>
    public string SignedInId { get; private set; } = "";

    public long BadgeId { get; private set; }

    public Badge Badge { get; private set; } = null!;

    /// <summary>The act of taking it up, by the badge's holder.</summary>
    public long ActId { get; private set; }

    /// <summary>The act of taking it up, by the badge's holder.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>When the last scan was made in it, to some seconds.</summary>
    public DateTime LastScanAt { get; private set; }

    /// <summary>When another badge, or signing out, ended it; null when nothing did but time perhaps.</summary>
    public DateTime? EndedAt { get; private set; }

    public static BenchShift Begin(string key, string signedInId, Badge badge, DateTime scannedAt, Act act) => new()
    {
        Key = key,
        SignedInId = signedInId,
        Badge = badge,
        Act = act,
        LastScanAt = scannedAt,
    };

    /// <summary>Whether a scan that was made then was made in it.</summary>
    /// <param name="at">When it was scanned, in UTC.</param>
    /// <param name="idle">After how long without a scan it ends by itself.</param>
    public bool Covers(DateTime at, TimeSpan idle) =>
        at - LastScanAt <= idle + ScanIsNotedEvery && (EndedAt is null || at <= EndedAt);
}
