using System.Text.RegularExpressions;

namespace Accession.Storage.Tests.Boundaries;

/// <summary>What may be mentioned where; to allow a place is to add it to the list.</summary>
public sealed class MentionTests
{
    private static readonly MentionRule Databases = new(
        new Regex(@"\bSqlite(Connection|Exception|Command|Parameter|Transaction|OpenMode|Error)|Microsoft\.Data\.Sqlite"
            + @"|\bNpgsql|\bPostgres(Exception|ErrorCodes)|\bUse(Sqlite|Npgsql)\("),
        "src/Accession.Storage/Databases/",
        "src/Accession.Server/Hosting/StoreSetup.cs");

    private static readonly MentionRule ExactLocalities = new(
        new Regex("exact_?(localit(y|ies)|correction)", RegexOptions.IgnoreCase),
        "src/Accession.Core/Localities/",
        "src/Accession.Core/Gatherings/Gathering.cs",
        "src/Accession.Core/Gatherings/Gathering.Corrections.cs",
        "src/Accession.Core/Gatherings/Correction.cs",
        "src/Accession.Core/Matching/Signature.cs",   // made from exact values, and counts as exact
        "src/Accession.Core/Outcomes/Actor.cs",
        "src/Accession.Storage/Mappings/ExactLocalityMapping.cs",
        "src/Accession.Storage/Mappings/CorrectionMapping.cs",
        "src/Accession.Storage/Localities/ExactLocalities.cs",
        "src/Accession.Storage/Localities/CorrectedRecords.cs",
        "src/Accession.Storage/Localities/Corrections.cs",
        "src/Accession.Storage/Localities/ProtectedPlaces.cs",
        "src/Accession.Storage/Databases/PostgreSql/PostgreSqlPublicRole.cs",   // to take every right on it away
        "src/Accession.Storage/Verifying/RegisterChecks.cs",
        "src/Accession.Storage/Verifying/VerifyRegister.cs",
        "src/Accession.Server/Mounting/LabelsToPrint.cs",   // the label of a sheet bears its place
        "src/Accession.Server/Tracking/ProtectLocality.cs",
        "src/Accession.Server/Tracking/Protection.cshtml.cs",
        "src/Accession.Server/Tracking/TrackingSlice.cs");

    private static readonly MentionRule Clocks = new(
        new Regex(@"TimeProvider\.System|Stopwatch|DateTimeOffset\.(Utc)?Now|DateTime\.(Utc)?Now"),
        "src/Accession.Server/Hosting/StoreSetup.cs",
        "src/Accession.Server/Administering/FirstStart.cs");

    private static readonly MentionRule Console = new(
        new Regex(@"\bConsole\."),
        "src/Accession.Server/Hosting/CommandAnswers.cs",
        "src/Accession.Server/Hosting/CommandTalk.cs");

    [Fact]
    public void Only_Databases_and_the_wiring_know_which_database_runs() =>
        Assert.Equal([], Databases.Broken(SourceFile.All(".cs", ".cshtml")));

    [Fact]
    public void Exact_localities_are_out_of_reach() =>
        Assert.Equal([], ExactLocalities.Broken(SourceFile.All(".cs", ".cshtml", ".ts", ".sql")));

    [Fact]
    public void Times_come_from_the_clock_that_was_handed_in() =>
        Assert.Equal([], Clocks.Broken(SourceFile.All(".cs", ".cshtml")));

    [Fact]
    public void Only_one_class_writes_to_the_console() =>
        Assert.Equal([], Console.Broken(SourceFile.All(".cs", ".cshtml")));

    [Theory]
    [InlineData("using Microsoft.Data.Sqlite;", 1)]
    [InlineData("catch (NpgsqlException)", 1)]
    [InlineData("when failure is PostgresException { }", 1)]
    [InlineData("options.UseNpgsql(connection)", 1)]
    [InlineData("store.Kind == StoreKind.PostgreSql", 0)]
    public void A_database_out_of_place_is_noticed(string line, int findings) =>
        AssertNoticed(Databases, "src/Accession.Storage/Databases/A.cs", line, findings);

    [Theory]
    [InlineData("SELECT * FROM exact_locality", 1)]
    [InlineData("db.Set<ExactLocality>()", 1)]
    [InlineData("exactlocality", 1)]
    [InlineData("SELECT * FROM exact_correction", 1)]
    [InlineData("// the exact place", 0)]
    public void An_exact_locality_out_of_place_is_noticed(string line, int findings) =>
        AssertNoticed(ExactLocalities, "src/Accession.Core/Localities/A.cs", line, findings);

    [Theory]
    [InlineData("src/Accession.Server/Tracking/SpecimenPage.cshtml.cs")]
    [InlineData("src/Accession.Server/Tracking/Protection.cshtml")]
    [InlineData("src/Accession.Storage/AccessionDb.cs")]
    [InlineData("src/Accession.Storage/Mappings/GatheringMapping.cs")]
    public void Beside_those_who_must_nobody_reaches_exact_localities(string path) =>
        Assert.Single(ExactLocalities.Broken([new(path, "db.Set<ExactLocality>()")]));

    private static void AssertNoticed(MentionRule rule, string allowed, string line, int findings)
    {
        Assert.Equal(findings, rule.Broken([new("src/Accession.Server/Publishing/A.cs", line)]).Count());
        Assert.Empty(rule.Broken([new(allowed, line)]));
    }
}
