using System.Text.Json;
using Accession.Tests;

namespace Accession.Storage.Tests.Evaluations;

/// <summary>
/// What the evaluation program says of open data that one reader labelled, and of invented batches. The shares asked
/// for lie a little below what is reached, so that a better rule may lose a pair elsewhere.
/// </summary>
public sealed class FiguresTests
{
    [Fact]
    public void Hard_labelled_pairs()
    {
        var samples = ReferenceData.Require("samples");
        var figures = Run("pairs", samples, ReferenceData.Require("samples", "pairs-labelled.csv"));
        Assert.InRange(figures.GetProperty("precision").GetDouble(), 0.99, 1);
        Assert.InRange(figures.GetProperty("recall").GetDouble(), 0.9, 1);
        var total = figures.GetProperty("found").GetInt32() + figures.GetProperty("missed").GetInt32()
            + figures.GetProperty("possible").GetInt32();
        Assert.True(figures.GetProperty("missed").GetInt32() <= 0.03 * total, "Too many true pairs are called new.");
    }

    [Theory]
    [InlineData("donation-1", ".csv", 0.99, 0.985, 0.95)]
    [InlineData("donation-2", ".xlsx", 0.99, 0.965, 0.8)]
    public void Invented_batches(string name, string ending, double precision, double recall, double clashRecall)
    {
        var figures = Run(
            "batch",
            ReferenceData.Require("samples", "batches", "holdings.csv"),
            ReferenceData.Require("samples", "batches", name + ending),
            ReferenceData.Require("samples", "batches", $"{name}-expected.csv"));
        Assert.InRange(figures.GetProperty("precision").GetDouble(), precision, 1);
        Assert.InRange(figures.GetProperty("recall").GetDouble(), recall, 1);
        Assert.InRange(figures.GetProperty("clashRecall").GetDouble(), clashRecall, 1);
        Assert.InRange(figures.GetProperty("clashOnNew").GetDouble(), 0, 0.01);
    }

    [Fact]
    public void Groups_of_a_file()
    {
        using var folder = new TemporaryFolder();
        var records = folder.Write("records.tsv",
            "id\trecordedBy\trecordNumber\teventDate\tlocality\tscientificName",
            "a\tA. Pell\t12\t2026-06-14\tRim of Dry Basin, S of Tilden\tPoa secunda",
            "b\tPell, Anna\t12\t2026-06-14\tRim of Dry Basin, S of Tilden\tPoa secunda",
            "c\tA. Pell\t13\t2026-06-14\tAlkali Flat, E of Tilden\tCarex alta",
            "d\tT. Holt\t12\t1999-05-01\tOwyhee breaks\tPoa secunda",
            "e\tPell\t13\t\tQuite another place\tCarex alta",
            "f\tT. Holt\t12\t1999-05-01\tOwyhee breaks\tPoa secunda");
        var groups = folder.Write("groups.csv", "group,id", "1,a", "1,b", "2,c", "2,e");
        var figures = Run("groups", records, groups);
        Assert.Equal(1, figures.GetProperty("found").GetInt32());   // a and b
        Assert.Equal(1, figures.GetProperty("possible").GetInt32());   // c and e: date and place are missing
        Assert.Equal(1, figures.GetProperty("wrong").GetInt32());   // d and f stand in no group
        Assert.Equal(0, figures.GetProperty("missed").GetInt32());
        Assert.Equal(0.5, figures.GetProperty("precision").GetDouble());
        Assert.Equal(0.5, figures.GetProperty("recall").GetDouble());

        var unsure = folder.Write("unsure.csv", "idA,idB", "f,d", "e,c");
        figures = Run("groups", records, groups, "--unsure", unsure);
        Assert.Equal(1, figures.GetProperty("precision").GetDouble());
        Assert.Equal(1, figures.GetProperty("recall").GetDouble());
    }

    [Fact]
    public void A_file_without_the_columns_is_refused_with_their_names()
    {
        using var folder = new TemporaryFolder();
        var file = folder.Write("records.csv", "id,recordedBy", "a,Pell");
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(2, Evaluation.Evaluation.Run(["pairs", file, file], output, errors));
        Assert.Contains("needs the columns idA, idB, label", errors.ToString());
    }

    private static JsonElement Run(params string[] arguments)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        var code = Evaluation.Evaluation.Run([.. arguments, "--json"], output, errors);
        Assert.True(code == 0, errors.ToString());
        var last = output.ToString().TrimEnd().Split('\n')[^1];
        return JsonDocument.Parse(last).RootElement.Clone();
    }

    private sealed class TemporaryFolder : IDisposable
    {
        private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("accession-figures");

        public string Write(string name, params string[] lines)
        {
            var path = Path.Combine(_folder.FullName, name);
            File.WriteAllLines(path, lines);
            return path;
        }

        public void Dispose() => _folder.Delete(recursive: true);
    }
}
