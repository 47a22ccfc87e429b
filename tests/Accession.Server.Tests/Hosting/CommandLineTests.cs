using System.Text.Json;
using Accession.Tests;

namespace Accession.Server.Tests.Hosting;

/// <summary>What all commands have in common, as somebody types them at a console.</summary>
public sealed class CommandLineTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("accession-test-").FullName;

    [Theory]
    [InlineData("serve")]
    [InlineData("receive")]
    [InlineData("check")]
    [InlineData("export")]
    [InlineData("user")]
    [InlineData("user add")]
    [InlineData("user list")]
    [InlineData("user link")]
    [InlineData("backup")]
    [InlineData("restore")]
    [InlineData("verify")]
    [InlineData("weigh")]
    [InlineData("migrate")]
    [InlineData("demo")]
    public async Task Help_begins_with_an_example(string command)
    {
        var (exit, told, _) = await ServerProcess.RunApartAsync([.. command.Split(' '), "--help"]);
        Assert.Equal(0, exit);
        Assert.StartsWith("Example", told[0], StringComparison.Ordinal);
        Assert.StartsWith($"  accession {command.Split(' ')[0]} ", $"{told[1]} ", StringComparison.Ordinal);
        Assert.Contains("Usage:", told);
    }

    [Theory]
    [InlineData("chek list.csv", "check")]                                  // a misspelt command
    [InlineData("check list.csv --jsn", "--json")]                          // a misspelt option
    [InlineData("check", "Required argument missing")]                      // nothing to check
    [InlineData("export", "--out")]                                         // a required option
    [InlineData("user add somebody", "--role")]
    [InlineData("user add somebody --role Gardener", "Gardener")]           // no such role
    [InlineData("receive list.csv", "--source")]                            // neither source nor batch
    [InlineData("receive list.csv --batch many", "many")]                   // no number
    [InlineData("", "Required command was not provided")]
    public async Task A_wrong_argument_ends_with_2_and_says_what_was_meant(string typed, string said)
    {
        var (exit, told, remarks) = await ServerProcess.RunApartAsync(typed.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        Assert.Equal(2, exit);
        Assert.Empty(told);
        Assert.Contains(said, remarks, StringComparison.Ordinal);
        Assert.Contains("--help says what can be typed.", remarks, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("export --out FOLDER/a.zip")]
    [InlineData("verify")]
    [InlineData("weigh")]
    [InlineData("backup FOLDER/a.backup")]
    [InlineData("migrate")]
    [InlineData("user list")]
    [InlineData("user link somebody")]
    [InlineData("user add somebody --role Curator")]
    public async Task Without_a_register_none_is_made(string typed)
    {
        var nowhere = Path.Combine(_folder, "nowhere");
        var (exit, told, remarks) = await ServerProcess.RunApartAsync(
            [.. typed.Replace("FOLDER", _folder, StringComparison.Ordinal).Split(' '), "--data", nowhere]);
        Assert.Equal(1, exit);
        Assert.Empty(told);
        Assert.Equal($"There is no register in {nowhere}. Name its folder with --data.", remarks);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder));
    }

    [Theory]
    [InlineData("check FOLDER/list.csv")]
    [InlineData("receive FOLDER/list.csv --source S")]
    [InlineData("export --out FOLDER/a.zip")]
    [InlineData("verify")]
    [InlineData("weigh")]
    [InlineData("migrate")]
    [InlineData("user list")]
    [InlineData("demo")]
    public async Task A_database_out_of_reach_ends_with_2(string typed)
    {
        await File.WriteAllTextAsync(Path.Combine(_folder, "list.csv"), "Collector,Number\nAda Quill,1\n");
        var (exit, told, remarks) = await ServerProcess.RunApartAsync(
        [
            .. typed.Replace("FOLDER", _folder, StringComparison.Ordinal).Split(' '), "--data", Path.Combine(_folder, "d"),
            "--set", "Store:Kind=PostgreSql", "--set", "Store:Connection=Host=127.0.0.1;Port=1;Timeout=3",
        ]);
        Assert.True(exit == 2, remarks);
        Assert.Empty(told);
        Assert.Contains("Store:Connection", remarks, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", remarks, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("check")]
    [InlineData("check --json")]
    public async Task Checked_without_a_register_a_list_is_compared_with_itself_and_nothing_stays(string typed)
    {
        var list = Path.Combine(_folder, "list.csv");
        await File.WriteAllTextAsync(
            list, "Collector,Number,Date,Locality\nAda Quill,1,2024-05-01,Mill lane\nAda Quill,1,2024-05-01,Mill lane\n");
        var nowhere = Path.Combine(_folder, "nowhere");
        var (exit, told, remarks) = await ServerProcess.RunApartAsync([.. typed.Split(' '), list, "--data", nowhere]);
        Assert.Equal(3, exit);
        Assert.Empty(remarks);
        Assert.Equal([list], Directory.EnumerateFileSystemEntries(_folder));
        if (typed.EndsWith("--json", StringComparison.Ordinal))
        {
            var summary = JsonDocument.Parse(told[^1]).RootElement;
            Assert.Equal("summary", summary.GetProperty("type").GetString());
            Assert.False(summary.GetProperty("comparedWithHoldings").GetBoolean());
            Assert.Equal(1, summary.GetProperty("findings").GetProperty("repeat").GetInt32());
        }
        else
        {
            Assert.Contains(told, line => line.Contains("no holdings to compare", StringComparison.Ordinal));
            Assert.Contains("line 3: Repeat", told);
        }
    }

    [Fact]
    public async Task A_list_with_nothing_to_look_at_ends_with_0_and_one_that_cannot_be_read_with_2()
    {
        var list = Path.Combine(_folder, "list.csv");
        await File.WriteAllTextAsync(list, "Collector,Number,Date,Locality\nAda Quill,1,2024-05-01,Mill lane\n");
        Assert.Equal(0, (await ServerProcess.RunAsync("check", list, "--data", _folder)).ExitCode);
        await File.WriteAllTextAsync(list, "");
        Assert.Equal(2, (await ServerProcess.RunAsync("check", list, "--data", _folder)).ExitCode);
        Assert.Equal(2, (await ServerProcess.RunAsync("check", Path.Combine(_folder, "none.csv"))).ExitCode);
        Assert.Equal([list], Directory.EnumerateFileSystemEntries(_folder));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
