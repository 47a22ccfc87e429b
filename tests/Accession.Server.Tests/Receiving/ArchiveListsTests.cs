using System.IO.Compression;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Storage.Accounts;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Receiving;

[Trait("Store", "sqlite")]
public sealed class ArchiveListsOnSqlite(ServerOnSqlite server)
    : ArchiveListsTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class ArchiveListsOnPostgreSql(ServerOnPostgreSql server)
    : ArchiveListsTests(server), IClassFixture<ServerOnPostgreSql>;

/// <summary>A Darwin Core archive as a batch, through every door. People and places are invented.</summary>
public abstract class ArchiveListsTests(TestServer server)
{
    private const string Meta =
        """
        <archive xmlns="http://rs.tdwg.org/dwc/text/">
          <core rowType="http://rs.tdwg.org/dwc/terms/Occurrence" fieldsTerminatedBy="\t" fieldsEnclosedBy="">
            <files><location>occurrence.txt</location></files><id index="0"/>
            <field index="0" term="http://rs.tdwg.org/dwc/terms/occurrenceID"/>
            <field index="1" term="http://rs.tdwg.org/dwc/terms/recordedBy"/>
            <field index="2" term="http://rs.tdwg.org/dwc/terms/recordNumber"/>
            <field index="3" term="http://rs.tdwg.org/dwc/terms/eventDate"/>
            <field index="4" term="http://rs.tdwg.org/dwc/terms/locality"/>
            <field term="http://rs.tdwg.org/dwc/terms/stateProvince" default="Oregon"/>
          </core>
          <extension rowType="http://rs.tdwg.org/dwc/terms/Identification" fieldsTerminatedBy="\t">
            <files><location>names.txt</location></files><coreid index="0"/>
            <field index="1" term="http://rs.tdwg.org/dwc/terms/scientificName"/>
            <field index="2" term="http://rs.tdwg.org/dwc/terms/identifiedBy"/>
          </extension>
        </archive>
        """;

    private static byte[] Archive(string meta, string rows, string names = "")
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create))
        {
            (string, string)[] files = [("meta.xml", meta), ("occurrence.txt", rows), ("names.txt", names)];
            foreach (var (name, text) in files)
            {
                using var entry = zip.CreateEntry(name).Open();
                entry.Write(Encoding.UTF8.GetBytes(text));
            }
        }

        return bytes.ToArray();
    }

    private static byte[] Sent(string collector) => Archive(
        Meta,
        $"urn:a:{collector}:1\tO. {collector}\t1\t2024-05-01\t\"Cold\" Ford\n"
        + $"urn:a:{collector}:2\tO. {collector}\t2\t2024-05-02\tDry wash\n",
        $"urn:a:{collector}:1\tCarex alta L.\tB. Brask\nurn:a:{collector}:9\tCarex nova L.\tB. Brask\n");

    [Fact]
    public async Task Its_rows_are_a_batch_and_what_belongs_to_none_is_told()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("archive-page");
        var archive = Sent(name);
        var batch = await Bench.ReceiveAsync(server, curator, $"Archive {name}", "data.zip", archive);
        Assert.Contains("Darwin Core archive, Occurrence in occurrence.txt", batch.Text, StringComparison.Ordinal);

        var rows = await curator.GetPageAsync($"{batch.Address.AbsolutePath}/rows?show=settled");
        Assert.Contains("\"Cold\" Ford", rows.Text, StringComparison.Ordinal);
        var cells = await server.InRegisterAsync(db => db.Rows
            .Where(row => db.Batches.Any(b => b.Id == row.BatchId && b.Source.Name == $"Archive {name}"))
            .OrderBy(row => row.Line)
            .Select(row => row.Cells).ToListAsync());
        Assert.Contains("scientificName: Carex alta L.; identifiedBy: B. Brask", cells[0], StringComparison.Ordinal);
        Assert.DoesNotContain("Carex", cells[1], StringComparison.Ordinal);
        Assert.Contains("\"Oregon\"", cells[1], StringComparison.Ordinal);   // said once for every row
        var problems = await curator.Http.GetStringAsync(
            new Uri(server.Address, $"{batch.Address.AbsolutePath}/problems.csv"));
        Assert.Contains(
            $"In names.txt: no row of occurrence.txt has the id urn:a:{name}:9", problems, StringComparison.Ordinal);

        // The very same file changes nothing.
        var again = await curator.SubmitAsync(
            await curator.GetPageAsync("/batches"), "main form", [("SourceName", $"Archive {name}")],
            [new Upload("List", "data.zip", archive)]);
        Assert.Equal(batch.Address.AbsolutePath, again.Location);
    }

    [Theory]
    [InlineData("<!DOCTYPE a [<!ENTITY x SYSTEM 'file:///etc/passwd'>]>", "declares a document type or entities")]
    [InlineData("no xml", "is not XML that can be read")]
    public async Task What_must_not_be_read_is_refused_on_the_page_of_its_batch(string before, string reason)
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var batch = await Bench.ReceiveAsync(
            server, curator, $"Bad {reason}", "bad.zip", Archive(before + Meta, "1\n"));

        Assert.Contains(reason, batch.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("root:", batch.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_program_sends_it_as_it_is()
    {
        using var program = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.SendLists);
        var name = InventedNames.FamilyOf("archive-json");
        var content = new ByteArrayContent(Sent(name));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/zip");
        var received = await program.PostAsync(
            $"/api/v1/batches?source=Archive%20{name}&fileName=data.zip", content, Guid.NewGuid().ToString());
        Assert.Equal(HttpStatusCode.Accepted, received.Status);
        await server.WaitForWorkAsync();

        var batch = await program.GetAsync(received.Headers.Location!.OriginalString);
        var list = batch.Body.GetProperty("lists")[0];
        Assert.Equal(2, list.GetProperty("rows").GetInt32());
        Assert.Contains(
            "Identification rows", list.GetProperty("headings").EnumerateArray().Select(h => h.GetString()));
    }

    [Fact]
    public async Task The_console_checks_it_and_receives_it()
    {
        var name = InventedNames.FamilyOf("archive-console");
        var file = Path.Combine(server.Store.Folder, $"{Guid.NewGuid():N}.zip");
        await File.WriteAllBytesAsync(file, Sent(name));

        var (exit, told, remarks) = await RunAsync("check", file, "--json");
        Assert.True(exit == 3, remarks);   // one of the names belongs to no row
        Assert.Contains("\"rows\":2", told[^1], StringComparison.Ordinal);
        (exit, told, remarks) = await RunAsync("receive", file, "--source", $"Archive {name}");
        Assert.True(exit == 0, remarks);
        Assert.Contains(told, line => line.StartsWith("2 rows: 2 added", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_record_without_a_name_has_the_identifications_that_came_with_it()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var name = InventedNames.FamilyOf("archive-history");
        var dated = Meta.Replace(
            "</extension>", """<field index="3" term="http://rs.tdwg.org/dwc/terms/dateIdentified"/></extension>""",
            StringComparison.Ordinal);
        var pile = await Pile.TakeInAsync(server, curator, "history.zip", Archive(
            dated,
            $"urn:h:{name}:1\tO. {name}\t1\t2024-05-01\tCold Ford\n",
            $"urn:h:{name}:1\tCarex alta L.\tB. Brask\tsome time\nurn:h:{name}:1\tCarex nova L.\tA. Orm\t2025-03\n"));
        // What cannot be read of it is told with the batch, and holds nothing up.
        Assert.Contains(
            "some time", await curator.Http.GetStringAsync(new Uri(server.Address, $"{pile.BatchPath}/problems.csv")),
            StringComparison.Ordinal);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        Assert.Empty((await scanner.NextAsync(pile.Gatherings[0])).Refusals);

        var sheet = await curator.GetPageAsync($"/specimen/{pile.Code(1)}");
        Assert.Contains("Carex nova", sheet.One("p.label-name").TextContent, StringComparison.Ordinal);
        var names = sheet.All("ol.names > li").Select(one => one.TextContent).ToList();
        Assert.Equal(2, names.Count);
        Assert.Contains("current name", names[0], StringComparison.Ordinal);
        Assert.Contains("Dated \"some time\", which cannot be read", names[1], StringComparison.Ordinal);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    // Invented, beside the checkout; its second identification is later than the record's own name.
    [Fact]
    public async Task A_herbarium_that_is_taken_over_brings_the_history_of_its_names()
    {
        var sample = await File.ReadAllBytesAsync(
            ReferenceData.Require("standards", "dwca-samples", "made", "herbarium-complete.zip"));
        using var curator = await server.SignInAsync(Role.Curator);
        await Bench.BeginSeriesAsync(curator, "ARH");
        var batch = await Bench.ReceiveAsync(
            server, curator, "Invented test herbarium", "herbarium.zip", sample, carriesNumbers: true);
        using var program = await JsonProgram.OfPersonAsync(server, Role.Curator, Right.SendLists, Right.Settle);
        var address = $"/api/v1/batches/{batch.Address.AbsolutePath.Split('/')[^1]}";
        var taken = await program.PostAsync(
            $"{address}/takeovers", new { conditions = "none" }, ifMatch: (await program.GetAsync(address)).Tag);
        Assert.True(taken.Status == HttpStatusCode.Accepted, taken.Text);
        await server.WaitForWorkAsync();

        var names = await server.InRegisterAsync(db => db.Determinations.AsNoTracking()
            .Where(d => db.Specimens.Any(s => s.Id == d.SpecimenId && s.CatalogNumber == "TST-V-0000001"))
            .OrderBy(d => d.Id).ToListAsync());
        // The record's own name, of which the history says by whom and when; then the other one.
        Assert.Equal(
            [
                ("Artemisia tridentata Nutt.", "", "A. Exampleton", "2025-06-14"),
                ("Artemisia tridentata subsp. wyomingensis Beetle & A.M.Young", "cf.", "I. Samplefield", "2025-11"),
            ],
            names.Select(d => (d.Name, d.Qualifier, d.IdentifiedBy, d.DateIdentified)));
        Assert.Contains("leaf fluorescence checked", names[1].Reason, StringComparison.Ordinal);
        Assert.All(names, d => Assert.Contains("identification history of the archive", d.Reason, StringComparison.Ordinal));
        var sheet = await curator.GetPageAsync("/specimen/TST-V-0000001");
        Assert.Contains("Artemisia tridentata Nutt.", sheet.One("p.label-name").TextContent, StringComparison.Ordinal);
        Assert.Equal(2, sheet.All("ol.names > li").Count);
        Assert.Empty(await Pile.VerifyAsync(server));
    }

    private Task<(int Exit, string[] Told, string Remarks)> RunAsync(
        string command, string file, params string[] more) =>
        ServerProcess.RunApartAsync(
        [
            command, file, "--data", server.Store.Folder,
            .. server.Store.Settings.SelectMany(setting => new[] { "--set", setting }),
            "--set", "Institution:InstitutionCode=TB", "--set", "Institution:CollectionCode=TB-H", .. more,
        ]);
}
