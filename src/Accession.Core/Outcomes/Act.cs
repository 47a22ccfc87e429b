namespace Accession.Core.Outcomes;

/// <summary>
/// One act of the herbarium: who did what, when and why. Every entry, correction and piece of work refers to the act
/// it came from, so this one row is the audit, the guard against doing a thing twice, and the spine of the trail.
/// </summary>
public sealed class Act
{
    private Act()
    {
    }

    /// <summary>The number of the act; acts of one database rise with time.</summary>
    public long Id { get; private set; }

    /// <summary>The account that acted, or null for the program itself.</summary>
    public string? ActorId { get; private set; }

    /// <summary>The name of who acted, as it was on the day.</summary>
    public string ActorName { get; private set; } = "";

    /// <summary>What was done, as a verb phrase: "number a sheet".</summary>
    public string What { get; private set; } = "";

    /// <summary>When, in UTC.</summary>
    public DateTime At { get; private set; }

    /// <summary>Why, where somebody was asked for a reason.</summary>
    public string? Reason { get; private set; }

    /// <summary>The key under which the request came; unique for each actor.</summary>
    public string? RequestKey { get; private set; }

    /// <summary>
    /// The SHA-256 of the whole request in hexadecimal; null where no other request can come under its key.
    /// </summary>
    public string? RequestDigest { get; private set; }

    /// <summary>What was answered, as JSON, to be answered again when the same request comes again.</summary>
    public string? Answer { get; private set; }

    /// <summary>Begins an act.</summary>
    /// <param name="door">Who asks, and under which request key.</param>
    /// <param name="what">What is done, as a verb phrase of at most 80 characters.</param>
    /// <param name="at">When, in UTC.</param>
    /// <param name="reason">Why, where a reason is asked for.</param>
    /// <exception cref="ArgumentException">The time is not in UTC.</exception>
    public static Act Of(Door door, string what, DateTime at, string? reason = null)
    {
        if (at.Kind != DateTimeKind.Utc)
        {
            throw new ArgumentException("The time of an act is in UTC.", nameof(at));
        }

        return new Act
        {
            ActorId = door.By.Id,
            ActorName = door.By.Name,
            What = what,
            At = at,
            Reason = string.IsNullOrWhiteSpace(reason) ? null : reason.Trim(),
            RequestKey = door.RequestKey,
            RequestDigest = door.RequestDigest,
        };
    }

    /// <summary>Keeps what was answered, so that a request sent again is answered alike.</summary>
    /// <param name="json">The answer as JSON.</param>
    public void Answered(string json) => Answer = json;
}
