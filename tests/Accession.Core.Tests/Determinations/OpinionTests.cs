using Accession.Core.Determinations;
using Accession.Core.Outcomes;

namespace Accession.Core.Tests.Determinations;

public sealed class OpinionTests
{
    private static readonly DateOnly Today = new(2026, 3, 5);

    private static Opinion.Typed Slip(string? name = "Centaurea diffusa Lam.", string? by = "B. Vetch", string? date = "2024") =>
        new(name, null, null, by, date, DeterminationKind.NewName, SeenOn.Sheet, null);

    [Theory]
    [InlineData("1998", "1998")]                 // a year alone is usual on slips, and stays a year
    [InlineData("Mar 2025", "2025-03")]
    [InlineData("5 Mar 2026", "2026-03-05")]
    [InlineData("", null)]
    public void A_date_keeps_its_precision(string date, string? stored)
    {
        var read = Opinion.Read(Slip(date: date), Today);

        Assert.False(read.IsRefused);
        Assert.Equal(stored, read.Value.Date?.ToIso8601());
    }

    [Fact]
    public void Blanks_are_evened_out_and_the_rest_is_kept_to_the_letter()
    {
        var read = Opinion.Read(
            new("  Rosa   gallica L. var. gallica ", " cf. ", " Rosaceae", " B.  Vetch ", null,
                DeterminationKind.Confirmation, SeenOn.Image, " key of 1998 "),
            Today).Value;

        Assert.Equal(
            ("Rosa gallica L. var. gallica", "cf.", "Rosaceae", "B. Vetch", "key of 1998"),
            (read.Name, read.Qualifier, read.Family, read.IdentifiedBy, read.Reason));
    }

    [Theory]
    [InlineData("", "B. Vetch", "2024", "Write the name")]
    [InlineData("Poa annua L.", " ", "2024", "who says so")]
    [InlineData("Poa annua L.", "B. Vetch", "6 Mar 2026", "still to come")]
    [InlineData("Poa annua L.", "B. Vetch", "31 Feb 2024", "Feb")]
    [InlineData("Poa annua L.", "B. Vetch", "4/5/2024", "")]    // day and month may be either way round
    public void What_cannot_stand_on_a_slip_is_said(string name, string by, string date, string reason)
    {
        var read = Opinion.Read(Slip(name, by, date), Today);

        var refusal = Assert.Single(read.Refusals);
        Assert.Equal(RefusalKind.Invalid, refusal.Kind);
        Assert.Contains(reason, refusal.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(refusal.Reason);
    }

    [Fact]
    public void All_that_is_wrong_is_said_at_once() =>
        Assert.Equal(3, Opinion.Read(
            Slip(null, null) with { Kind = DeterminationKind.Listed }, Today).Refusals.Count);
}
