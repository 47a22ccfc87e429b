using Accession.Core.Outcomes;

namespace Accession.Core.Localities;

/// <summary>
/// A decision about how much of a gathering's place everyone may know. Entries are added, never edited.
/// </summary>
public sealed class LocalityProtection
{
    private LocalityProtection()
    {
    }

    internal LocalityProtection(Act act, Decision decision)
    {
        Act = act;
        Category = decision.Category;
        // Where nothing is withheld there is nothing to look at again.
        ReviewOn = decision.Category == SensitivityCategory.NotSensitive ? null : decision.ReviewOn;
    }

    /// <summary>How much of a place everyone may know.</summary>
    /// <param name="Category">How sensitive the place is from now on.</param>
    /// <param name="ReviewOn">When the decision is to be looked at again; null when protection is lifted.</param>
    public sealed record Decision(SensitivityCategory Category, DateOnly? ReviewOn);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The gathering.</summary>
    public long GatheringId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>How sensitive the place is from then on.</summary>
    public SensitivityCategory Category { get; private set; }

    /// <summary>When the decision is to be looked at again; null when protection was lifted.</summary>
    public DateOnly? ReviewOn { get; private set; }
}
