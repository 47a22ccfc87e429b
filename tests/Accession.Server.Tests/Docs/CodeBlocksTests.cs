using System.CommandLine;
using System.Reflection;
using System.Text;
using System.Text.Json;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Tests.Ground;
using AngleSharp.Html.Parser;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;

namespace Accession.Server.Tests.Docs;

/// <summary>What the documents tell people to type is understood by the program as it is.</summary>
[Trait("Store", "sqlite")]
public sealed class CodeBlocksTests(ServerOnSqlite server) : IClassFixture<ServerOnSqlite>
{
    private const string Run = "dotnet run --project src/Accession.Server -- ";

    private static readonly string[] Checked = ["bash", "json", "csv", "html", "csharp", "sql"];

    // What is the .NET SDK's own, or a script of the tree that continuous integration runs each time.
    private static readonly string[] Elsewhere =
        ["dotnet test", "dotnet publish ", "dotnet ef migrations add ", "eval \"$(tests/postgres.sh start)\"",
            "tests/postgres.sh stop", ".ci/run", "export ACCESSION_CHROMIUM=", "sudo ",
            "export ACCESSION=", "export TOKEN=", "curl ",   // CurlTests sends what curl would
            .. new[] { "intake", "match", "export", "numbers", "backup", "search", "serve", "start" }
                .Select(verb => $"dotnet run --project tests/Accession.Benchmarks -c Release -- {verb} ")];

    [Fact]
    public void Every_block_has_a_language_that_one_of_these_tests_checks() =>
        Assert.All(CodeBlock.All(), block => Assert.True(
            Checked.Contains(block.Language), $"{block.File}, line {block.Line}: nobody checks \"{block.Language}\"."));

    [Fact]
    public void Every_command_and_option_exists()
    {
        var root = new RootCommand();
        foreach (var command in ProgramCommands())
        {
            root.Subcommands.Add(command);
        }

        var ours = 0;
        foreach (var (block, command) in Commands("bash"))
        {
            var arguments = command.StartsWith(Run, StringComparison.Ordinal) ? command[Run.Length..]
                : command.StartsWith("accession ", StringComparison.Ordinal) ? command["accession ".Length..]
                : null;
            if (arguments is null)
            {
                Assert.True(
                    Elsewhere.Any(known => command.StartsWith(known, StringComparison.Ordinal)),
                    $"{block.File}, line {block.Line}: nobody checks \"{command}\".");
                continue;
            }

            var parsed = root.Parse(arguments);
            Assert.True(parsed.Errors.Count == 0, $"{block.File}: {command}: {string.Join(" ", parsed.Errors)}");
            ours++;
        }

        Assert.True(ours >= 5, $"Only {ours} commands of ours were found.");
    }

    [Fact]
    public async Task Every_settings_block_is_bound_and_valid()
    {
        foreach (var block in Blocks("json"))
        {
            var folder = Directory.CreateTempSubdirectory("accession-docs-").FullName;
            try
            {
                using var read = JsonDocument.Parse(block.Text);
                Assert.Equal(JsonValueKind.Object, read.RootElement.ValueKind);
                await File.WriteAllTextAsync(Path.Combine(folder, "accession.json"), block.Text);
                // A block that was read but is wrong throws one sentence here, before anything is touched.
                await using var app = AccessionServer.Build(new Settings { DataFolder = folder });
                app.Services.GetRequiredService<IStartupValidator>().Validate();
            }
            finally
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }

    [Fact]
    public async Task Every_list_is_received_with_all_its_columns_matched()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        foreach (var block in Blocks("csv"))
        {
            var source = $"{block.File} {block.Line}";
            var batch = await Bench.ReceiveAsync(server, curator, source, "list.csv", Encoding.UTF8.GetBytes(block.Text));
            Assert.Contains("All matched", batch.Text, StringComparison.Ordinal);
            Assert.DoesNotContain("cannot be read.", batch.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task The_tutorial_leads_to_a_numbered_sheet()
    {
        var list = Blocks("csv").Single(block => block.File == "docs/tutorial/first-accession.md");
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "TRY");

        var batch = await Bench.ReceiveAsync(server, curator, "Orla Finch", "list.csv", Encoding.UTF8.GetBytes(list.Text));
        Assert.Contains("1 open", batch.Text, StringComparison.Ordinal);
        var takeIn = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/take-in");
        var accepted = await curator.SubmitAsync(takeIn, "main form", [("Terms", "Gift"), ("SheetsInPile", "3")]);
        Assert.Empty(accepted.Refusals);
        await server.WaitForWorkAsync();
        var taken = await curator.GetPageAsync(batch.Address.AbsolutePath);
        var bench = await curator.GetPageAsync($"/accession/{taken.One("dd a.code").TextContent}/numbering");
        await curator.SubmitAsync(
            bench, $"form[action$='handler=Next']:has(input[value='{Bench.SeriesId(bench, "Sheets TRY")}'])");
        var proven = await curator.SubmitAsync(bench, ".scan-line", [("code", "try1")]);

        Assert.Equal("Proven", proven.One(".scan:first-child .state").TextContent);
        Assert.Contains("Artemisia tridentata",
            (await curator.GetPageAsync("/specimen/TRY0000001")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_piece_of_markup_is_whole()
    {
        var parser = new HtmlParser(new HtmlParserOptions { IsStrictMode = false });
        foreach (var block in Blocks("html"))
        {
            var document = await parser.ParseDocumentAsync($"<!DOCTYPE html><body>{block.Text}</body>");
            Assert.True(document.Body!.Children.Length > 0, $"{block.File}, line {block.Line}");
            Assert.Empty(document.QuerySelectorAll("[style], [onclick], script"));
        }
    }

    [Fact]
    public void Every_link_between_documents_leads_somewhere()
    {
        var root = CodeBlock.Root();
        foreach (var file in Directory.EnumerateFiles(root, "*.md", SearchOption.AllDirectories)
            .Where(file => Path.GetRelativePath(root, file) is var path
                && (!path.Contains(Path.DirectorySeparatorChar) || path.StartsWith("docs", StringComparison.Ordinal) || path.StartsWith("deploy", StringComparison.Ordinal))))
        {
            foreach (var target in Links(File.ReadAllText(file)))
            {
                var path = Path.Combine(Path.GetDirectoryName(file)!, target.Split('#')[0]);
                Assert.True(
                    File.Exists(path) || Directory.Exists(path),
                    $"{Path.GetRelativePath(root, file)} leads to {target}, which is not there.");
            }
        }
    }

    // Commands are no business of other assemblies; what they understand is.
    private static IEnumerable<Command> ProgramCommands() => typeof(AccessionServer).Assembly.GetTypes()
        .Select(type => type.GetMethod("Create", BindingFlags.Public | BindingFlags.Static, []))
        .Where(create => create?.ReturnType == typeof(Command))
        .Select(create => (Command)create!.Invoke(null, null)!);

    private static IEnumerable<string> Links(string markdown) =>
        System.Text.RegularExpressions.Regex.Matches(markdown, @"\]\(([^)\s]+)\)").Select(match => match.Groups[1].Value)
            .Where(link => !link.Contains(':', StringComparison.Ordinal) && link[0] != '#');

    private static List<CodeBlock> Blocks(string language)
    {
        var found = CodeBlock.All().Where(block => block.Language == language).ToList();
        Assert.NotEmpty(found);
        return found;
    }

    private static IEnumerable<(CodeBlock Block, string Command)> Commands(string language) =>
        Blocks(language).SelectMany(block => block.Commands().Select(command => (block, command)));
}
