using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>Letting something in untreated: for curators, with a reason.</summary>
public static class Waiver
{
    /// <summary>The most characters of a reason.</summary>
    public const int LongestReason = 500;

    /// <summary>Why this person may not waive with this act; null when they may.</summary>
    /// <param name="by">Who.</param>
    /// <param name="act">The act with its reason.</param>
    public static Refusal? WhyNot(Actor by, Act act) => !by.Roles.Contains(Role.Curator)
        ? new(RefusalKind.NotAllowed, "Only a curator lets something in untreated.")
        : act.Reason is not { Length: > 0 and <= LongestReason }
            ? new(RefusalKind.Invalid,
                $"Say in at most {LongestReason} characters why it may come in without proof that pests are dead.")
            : null;
}
