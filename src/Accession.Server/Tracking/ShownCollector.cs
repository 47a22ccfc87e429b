using Accession.Core.People;

namespace Accession.Server.Tracking;

/// <summary>One collector as a curator sees it.</summary>
/// <param name="Id">The number in the address.</param>
/// <param name="Name">The name.</param>
/// <param name="Years">The years of collecting, as stated.</param>
/// <param name="Spellings">The spellings that hold.</param>
public sealed record ShownCollector(
    long Id, string Name, CollectingYears Years, IReadOnlyList<ShownCollector.Spelling> Spellings)
{
    /// <summary>Who stated the years last; null where nobody did.</summary>
    public Statement? Stated { get; init; }

    /// <summary>Of which years the gatherings under the spellings are, those of a namesake included.</summary>
    public IReadOnlyList<YearStretch> Stretches { get; init; } = [];

    /// <summary>Spellings of the family name that may be this person too.</summary>
    public IReadOnlyList<Spelling> Candidates { get; init; } = [];

    /// <summary>Spellings of the family name that are somebody's of the same years.</summary>
    public IReadOnlyList<CollectorHoldings.Holder> Taken { get; init; } = [];

    /// <summary>How the collector numbers, as stated; null where nothing is known.</summary>
    public NumberingHabit? Habit { get; init; }

    /// <summary>Who stated last how the collector numbers; null where nobody did.</summary>
    public Statement? HabitStated { get; init; }

    /// <summary>What the numbers held here show.</summary>
    public required NumberingEvidence Evidence { get; init; }

    /// <summary>Numbers against dates; null where no number with a full date is held.</summary>
    public NumberPlot? Plot { get; init; }

    /// <summary>Those who were merged into this collector.</summary>
    public IReadOnlyList<MergedOne> Merged { get; init; } = [];

    /// <summary>Others of the family name, who may be the same person.</summary>
    public IReadOnlyList<OtherOne> Others { get; init; } = [];

    public TiedAccount? Tied { get; init; }

    public IReadOnlyList<FreeAccount> Free { get; init; } = [];

    /// <summary>Spellings under which gatherings are nobody's.</summary>
    public IEnumerable<Spelling> WithNobodys => Spellings.Where(one => one.Outside + one.Undated > 0);

    /// <summary>A spelling.</summary>
    /// <param name="Written">To the letter.</param>
    /// <param name="Gatherings">How many gatherings are this person's, or would be.</param>
    /// <param name="Outside">How many are outside everybody's years, and so nobody's.</param>
    /// <param name="Undated">How many have no year and are nobody's, because the spelling is shared.</param>
    /// <param name="Others">Who else has it.</param>
    public sealed record Spelling(
        string Written, int Gatherings, int Outside, int Undated, IReadOnlyList<CollectorHoldings.Holder> Others);

    public sealed record MergedOne(long Id, string Name, string By, DateTime At, string? How);

    public sealed record OtherOne(long Id, string Name, CollectingYears Years, int Spellings);

    public sealed record Statement(string By, DateTime At, string? How);

    public sealed record TiedAccount(string Name, string UserName, DateTime Since, string By, string? How);

    public sealed record FreeAccount(string Id, string Name);
}
