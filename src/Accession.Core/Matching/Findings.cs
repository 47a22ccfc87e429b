namespace Accession.Core.Matching;

/// <summary>A gathering that was compared with a row.</summary>
/// <param name="Id">The gathering, or an earlier row of the batch, in whatever count the caller keeps.</param>
/// <param name="Comparison">What both are to each other.</param>
public readonly record struct Candidate(long Id, Comparison Comparison);

/// <summary>The one finding of a row.</summary>
/// <param name="Kind">What the row is.</param>
/// <param name="Members">
/// Every candidate of that kind, the closest first. Of a new row those of the same name and number that are another
/// person's or of another run of numbers; mostly none.
/// </param>
/// <param name="AlikeNotCompared">
/// How many gatherings met in a key that was too common to compare them singly; they alone make a row possible.
/// </param>
public sealed record Finding(FindingKind Kind, IReadOnlyList<Candidate> Members, int AlikeNotCompared)
{
    /// <summary>What is said of those that were not compared; null when all were.</summary>
    /// <param name="alike">How many were not.</param>
    public static string? NotCompared(int alike) => alike == 0
        ? null
        : $"{alike:N0} before it are alike in collector, date and plant; they were not compared singly.";
}

/// <summary>Makes the finding of a row from all that it was compared with.</summary>
public static class Findings
{
    /// <summary>
    /// The best kind wins, and every candidate of that kind is named. A clash is none when the row fits the collector's
    /// other sheets of that day in date, place and number: then two runs of numbers met, or two people of one name.
    /// </summary>
    /// <param name="candidates">
    /// All candidates of one row, those that are new among them; one that comes twice is named once.
    /// </param>
    /// <param name="alikeNotCompared">How many met in a key that stayed too common.</param>
    public static Finding Of(IEnumerable<Candidate> candidates, int alikeNotCompared = 0)
    {
        ArgumentNullException.ThrowIfNull(candidates);
        ArgumentOutOfRangeException.ThrowIfNegative(alikeNotCompared);
        var kind = FindingKind.New;
        var rank = 0;
        var fitsThatDay = false;
        List<Candidate> members = [];
        foreach (var candidate in candidates)
        {
            fitsThatDay |= IsOfTheSameOuting(candidate.Comparison.Evidence);
            var itsRank = RankOf(candidate.Comparison);
            if (itsRank < rank || !IsWorthNaming(candidate.Comparison))
            {
                continue;
            }

            if (itsRank > rank)
            {
                members.Clear();
                (kind, rank) = (candidate.Comparison.Kind, itsRank);
            }

            members.Add(candidate);
        }

        if (kind == FindingKind.NumberClash && fitsThatDay)
        {
            kind = FindingKind.New;
            members = members.ConvertAll(AsAnotherRun);
        }

        var isOnlyAlike = alikeNotCompared > 0 && kind < FindingKind.Possible;
        return new(
            isOnlyAlike ? FindingKind.Possible : kind,
            isOnlyAlike
                ? []
                : [.. members
                    .OrderByDescending(member => member.Comparison.Weight)
                    .ThenBy(member => member.Id)
                    .DistinctBy(member => member.Id)],
            alikeNotCompared);
    }

    // A sheet with all but its number in common explains the clash: the number is the slip.
    private static int RankOf(Comparison comparison) => comparison switch
    {
        { Kind: FindingKind.Possible, Weight: >= Weights.ForSameGathering } => (2 * (int)FindingKind.NumberClash) + 1,
        { Kind: var kind } => 2 * (int)kind,
    };

    private static bool IsOfTheSameOuting(Evidence pair) =>
        pair is { Who.Agreement: Agreement.Same, When.Agreement: Agreement.Same }
        && pair.Where.Agreement is Agreement.Same or Agreement.Near
        && (pair.Notes & EvidenceNotes.NeighbourNumber) != 0;

    private static Candidate AsAnotherRun(Candidate clash)
    {
        var evidence = clash.Comparison.Evidence;
        return clash with
        {
            Comparison = clash.Comparison with
            {
                Kind = FindingKind.New,
                Evidence = evidence with
                {
                    Notes = (evidence.Notes & ~EvidenceNotes.Question) | EvidenceNotes.TwoRuns,
                },
            },
        };
    }

    private static bool IsWorthNaming(Comparison comparison) =>
        comparison.Kind != FindingKind.New
        || (comparison.Evidence.Notes
            & (EvidenceNotes.TwoPeople | EvidenceNotes.OutsideYears | EvidenceNotes.AnotherYear)) != 0
        || comparison.Evidence is { Who.Slip: Slip.TwoOnRecord, Number.Agreement: Agreement.Same };
}
