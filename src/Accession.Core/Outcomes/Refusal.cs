namespace Accession.Core.Outcomes;

/// <summary>What kind of "no" a rule gave. The doors turn it into a status code in one place.</summary>
public enum RefusalKind
{
    /// <summary>The thing asked for is not there, or not for this person to see.</summary>
    NotFound,

    /// <summary>The state of the thing does not permit it now: it is taken, gone, or somebody was faster.</summary>
    Conflict,

    /// <summary>The request itself cannot be right: a missing field, a value out of range.</summary>
    Invalid,

    /// <summary>It was changed since whoever asks looked at it; what they saw is no longer so.</summary>
    Outdated,

    /// <summary>This person may not do this, or the rules of the house forbid it.</summary>
    NotAllowed,
}

/// <summary>A rule says no.</summary>
/// <param name="Kind">The kind of no.</param>
/// <param name="Reason">What happened, where, and what to do: a sentence for a curator, never a code.</param>
public sealed record Refusal(RefusalKind Kind, string Reason)
{
    /// <summary>The field that is meant, where the request has several and one of them cannot be right.</summary>
    public string? Field { get; init; }
}
