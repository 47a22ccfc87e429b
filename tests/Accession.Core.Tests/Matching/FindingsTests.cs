using Accession.Core.Matching;

namespace Accession.Core.Tests.Matching;

/// <summary>A row has one finding, of all it was compared with.</summary>
public sealed class FindingsTests
{
    private static readonly Row Plain =
        new("J. R. Sandover", "812", "2026-06-14", "Rim of Dry Basin, S of Tilden", "Harney", "Poa secunda");

    private static readonly Comparison Same = Plain.Against(Plain);
    private static readonly Comparison Clash =
        Plain.Against(Plain with { Date = "2021-02-03", County = "Malheur", Locality = "Owyhee breaks" });

    private static readonly Comparison New = Plain.Against(Plain with { Number = "900" });

    [Fact]
    public void The_best_kind_wins_and_all_of_that_kind_are_named_the_closest_first()
    {
        var less = Plain.Against(Plain with { Date = "2026-06" });
        var finding = Findings.Of([new(1, New), new(2, less), new(3, Clash), new(4, Same), new(4, Same)]);
        Assert.Equal(FindingKind.SameGathering, finding.Kind);
        Assert.Equal([4, 2], finding.Members.Select(member => member.Id));
        Assert.Null(Finding.NotCompared(finding.AlikeNotCompared));
    }

    [Fact]
    public void Without_candidates_a_row_is_new()
    {
        Assert.Equal(FindingKind.New, Findings.Of([]).Kind);
        Assert.Empty(Findings.Of([new(1, New)]).Members);
    }

    [Fact]
    public void A_clash_goes_before_what_is_barely_possible_and_behind_what_explains_it()
    {
        var barely = Plain.Against(Plain with { Date = "1999-02-03" });
        var nearly = Plain.Against(Plain with { Number = "821" });
        Assert.Equal(FindingKind.Possible, barely.Kind);
        Assert.Equal(FindingKind.Possible, nearly.Kind);
        Assert.Equal(FindingKind.NumberClash, Findings.Of([new(1, barely), new(2, Clash)]).Kind);
        Assert.Equal(1, Assert.Single(Findings.Of([new(1, nearly), new(2, Clash)]).Members).Id);
    }

    [Fact]
    public void A_row_that_fits_the_collectors_day_is_no_clash()
    {
        var neighbour = Plain.Against(Plain with { Number = "815", Plant = "Carex alta" });
        Assert.Equal(FindingKind.New, neighbour.Kind);
        var finding = Findings.Of([new(1, neighbour), new(2, Clash)]);
        Assert.Equal(FindingKind.New, finding.Kind);
        var named = Assert.Single(finding.Members);
        Assert.Equal(2, named.Id);
        Assert.Contains(
            named.Comparison.Evidence.Sentences(finding.Kind),
            sentence => sentence.Contains("two runs, or two people"));

        // Far from the day's numbers, the number may be the error.
        var far = Plain.Against(Plain with { Number = "4815", Plant = "Carex alta" });
        Assert.Equal(FindingKind.NumberClash, Findings.Of([new(1, far), new(2, Clash)]).Kind);
    }

    [Fact]
    public void What_was_too_common_to_compare_is_said()
    {
        var finding = Findings.Of([new(1, New)], alikeNotCompared: 50_000);
        Assert.Equal(FindingKind.Possible, finding.Kind);
        Assert.Empty(finding.Members);
        Assert.Contains("50,000 before it are alike", Finding.NotCompared(finding.AlikeNotCompared));
        Assert.Equal(FindingKind.SameGathering, Findings.Of([new(1, Same)], alikeNotCompared: 300).Kind);
    }

    [Fact]
    public void Every_slip_has_a_sentence_of_its_own()
    {
        static IReadOnlyList<string> Of(Slip slip)
        {
            var field = new FieldEvidence(Agreement.Near, slip);
            return new Evidence(field, field, field, field, field, YearsApart: 3).Sentences(FindingKind.New);
        }

        foreach (var slip in Enum.GetValues<Slip>().Where(slip => slip != Slip.None))
        {
            var own = Of(slip).Except(Of(Slip.None)).ToList();
            Assert.True(own.Count == 1, $"{slip} has {own.Count} sentences.");
            Assert.Matches("[.?]$", own[0]);
        }
    }
}
