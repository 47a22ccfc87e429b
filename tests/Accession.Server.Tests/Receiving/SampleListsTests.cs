using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Storage.Tables;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

/// <summary>Open data as it is published, received as a list: every line is a row or is told.</summary>
[Trait("Store", "sqlite")]
public sealed class SampleListsTests(ServerOnSqlite server) : IClassFixture<ServerOnSqlite>
{
    [Theory]
    [InlineData("samples/batches/donation-1.csv", 1000)]
    [InlineData("samples/batches/donation-2.xlsx", 600)]
    [InlineData("samples/occurrences-malus.tsv", 2284)]
    [InlineData("samples/occurrences-vaccinium.tsv", 8450)]
    public async Task Every_line_of_a_real_list_is_a_row_or_is_told(string file, int lines)
    {
        var path = ReferenceData.Require(file.Split('/'));
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.ReceiveAsync(server, curator, file, Path.GetFileName(path), await File.ReadAllBytesAsync(path));
        var counts = await server.InRegisterAsync(db => db.Lists.Where(list => list.Batch.Source.Name == file)
            .Select(list => list.Counts).SingleAsync());
        var tally = new TableTally();
        var below = TableReader.Open(path).Value.Rows(tally).Count();
        Assert.Equal((lines, lines), (below, counts.Rows + counts.LinesNotRead));

        var batches = await server.InRegisterAsync(db => db.Batches.Where(b => b.Source.Name == file)
            .Select(b => b.Id).ToListAsync());
        var open = await server.InRegisterAsync(db => db.Rows.CountAsync(
            row => batches.Contains(row.BatchId) && row.OpenProblems > 0));
        var reasons = await server.InRegisterAsync(db => db.Problems
            .Where(problem => batches.Contains(problem.BatchId) && problem.Blocks)
            .GroupBy(problem => new { problem.ColumnName, problem.Reason })
            .OrderByDescending(group => group.Count()).Take(12)
            .Select(group => new { group.Key, Count = group.Count(), Text = group.Min(problem => problem.Text) })
            .ToListAsync());
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{file}: {counts.Rows} rows, {counts.LinesNotRead} lines not read, {open} rows open\n"
            + string.Join('\n', reasons.Select(r => $"  {r.Count} {r.Key.ColumnName}: {r.Key.Reason} ({r.Text})")));
        Assert.True(open * 4 <= counts.Rows, $"{open} of {counts.Rows} rows are held up.");
    }
}
