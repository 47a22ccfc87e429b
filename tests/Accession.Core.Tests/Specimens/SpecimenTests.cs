using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;

namespace Accession.Core.Tests.Specimens;

public class SpecimenTests
{
    private static readonly DateTime At = new(2026, 3, 1, 9, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void A_sheet_is_numbered_with_its_first_custody_and_its_listed_name()
    {
        var gathering = Listed(sheets: 2, name: "Poa secunda J.Presl");
        var before = gathering.Version;
        var specimen = Number(gathering, 1, proven: false).Value;

        var part = Assert.Single(specimen.Parts);
        Assert.Equal(("H001", "H001", "The Herbarium", false),
            (specimen.CatalogNumber, part.Code, part.Holder, part.IsNumbered));
        Assert.Equal("The Herbarium", Assert.Single(part.Custody).Holder);
        Assert.Empty(part.Steps);
        Assert.Equal(specimen.CurrentName, Assert.Single(specimen.Determinations).Name);
        Assert.StartsWith("urn:uuid:", specimen.OccurrenceId, StringComparison.Ordinal);
        Assert.Equal(1, gathering.SheetsNumbered);
        Assert.NotEqual(before, gathering.Version);
    }

    [Fact]
    public void A_number_is_proven_once()
    {
        var part = Number(Listed(sheets: 1), 1, proven: false).Value.Parts[0];
        var before = part.Version;
        Assert.Null(part.ScanBack(null, Act.Of(Door.System, "scan a number back", At)));
        Assert.NotEqual(before, part.Version);
        before = part.Version;

        Assert.Equal(RefusalKind.Conflict, part.ScanBack(null, Act.Of(Door.System, "scan a number back", At))!.Kind);

        Assert.Single(part.Steps);
        Assert.Equal(before, part.Version);
    }

    [Fact]
    public void A_sheet_that_is_taken_over_keeps_its_number_and_has_no_step_to_do()
    {
        var gathering = Listed(sheets: 1, name: "Poa secunda J.Presl");
        var act = Act.Of(Door.System, "take sheets over", At);
        var specimen = Specimen.TakeOver(new("R-4313", 7, 12, 2), gathering, "The Herbarium", "", act).Value;

        Assert.Equal(("R-4313", 7L, 12L, 2),
            (specimen.CatalogNumber, specimen.SeriesId, specimen.Number, specimen.Repeat));
        var part = Assert.Single(specimen.Parts);
        Assert.Equal(("R-4313", 2, true, false), (part.Code, part.Repeat, part.IsFromBefore, part.IsNumbered));
        Assert.Equal("The Herbarium", Assert.Single(part.Custody).Holder);
        Assert.Empty(part.Steps);
        Assert.Equal("Poa secunda J.Presl", specimen.CurrentName);
        Assert.Equal(1, gathering.SheetsNumbered);
        Assert.True(Specimen.TakeOver(new("R-4313", 7, 12, 3), gathering, "The Herbarium", "", act).IsRefused);
    }

    [Fact]
    public void A_barcode_scanned_from_the_sheet_proves_itself()
    {
        var part = Number(Listed(sheets: 1), 1, proven: true).Value.Parts[0];
        Assert.True(part.IsNumbered);
        Assert.Equal(Step.Numbered, Assert.Single(part.Steps).Step);
    }

    [Fact]
    public void A_sheet_more_than_listed_is_counted_first()
    {
        var gathering = Listed(sheets: 1);
        Assert.False(Number(gathering, 1, proven: true).IsRefused);
        var version = gathering.Version;

        var refusal = Assert.Single(Number(gathering, 2, proven: true).Refusals);
        Assert.Equal(RefusalKind.Conflict, refusal.Kind);
        Assert.Equal((1, version), (gathering.SheetsNumbered, gathering.Version));

        gathering.ExpectAnotherSheet();
        Assert.NotEqual(version, gathering.Version);
        Assert.False(Number(gathering, 2, proven: true).IsRefused);
        Assert.Equal((2, 2), (gathering.SheetsNumbered, gathering.SheetsExpected));
    }

    [Fact]
    public void A_sheet_without_a_name_has_no_determination()
    {
        var specimen = Number(Listed(sheets: 1), 1, proven: true).Value;
        Assert.Empty(specimen.Determinations);
        Assert.Equal("", specimen.CurrentName);
    }

    /// <summary>What is past cannot be edited: entries have no public setter and no public method of their own.</summary>
    [Theory]
    [InlineData(typeof(CustodyEntry))]
    [InlineData(typeof(StepEntry))]
    [InlineData(typeof(LocalityProtection))]
    [InlineData(typeof(Core.Determinations.Determination))]
    public void Entries_are_never_edited(Type entry)
    {
        Assert.All(entry.GetProperties(), property => Assert.False(property.SetMethod?.IsPublic ?? false));
        Assert.Empty(entry.GetConstructors());
        Assert.All(
            entry.GetMethods(System.Reflection.BindingFlags.DeclaredOnly | System.Reflection.BindingFlags.Instance
                | System.Reflection.BindingFlags.Public),
            method => Assert.True(method.IsSpecialName, $"{entry.Name}.{method.Name} could change the past."));
    }

    private static Gathering Listed(int sheets, string name = "") => Gathering.TakeIn(
        1, 1, 1,
        new RowReading(
            new FieldNotes { RecordedBy = "Orla Finch", RecordNumber = "101", NameVerbatim = name },
            new PublicPlace(), sheets, []));

    private static Outcome<Specimen> Number(Gathering gathering, int number, bool proven) => Specimen.NumberSheet(
        new(1, number, $"H{number:000}"), gathering, "The Herbarium", proven, null, null,
        Act.Of(Door.System, "number a sheet", At));
}
