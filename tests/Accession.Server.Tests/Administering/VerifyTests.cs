using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Accession.Tests;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Administering;

[Trait("Store", "sqlite")]
public sealed class VerifyOnSqlite(ServerOnSqlite server) : VerifyTests(server), IClassFixture<ServerOnSqlite>;

[Trait("Store", "postgres")]
public sealed class VerifyOnPostgreSql(ServerOnPostgreSql server) : VerifyTests(server), IClassFixture<ServerOnPostgreSql>;

public abstract class VerifyTests(TestServer server)
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Locality,Lat,Long,Species,Sheets
        Orla Finch,101,2024-06-14,Oregon,Harney,Sage flat,43.58642,-119.05417,Artemisia tridentata Nutt.,2
        Orla Finch,102,2024-06-14,Oregon,Harney,Cold Ford,,,Poa secunda J.Presl,2
        Tam Brandt,102,2024-06-15,Oregon,Lake,Dry wash,,,Bromus tectorum L.,1
        """;

    // Each is done by hand in the database, as no door of the program can.
    private static readonly (string Check, string Sql)[] Tampering =
    [
        ("Who has each part", "UPDATE part SET holder = 'a stranger' WHERE id = (SELECT MIN(id) FROM part)"),
        ("Which numbers were scanned back",
            "UPDATE part SET is_numbered = NOT is_numbered WHERE id = (SELECT MAX(id) FROM part)"),
        ("Current names", "UPDATE specimen SET current_name = 'Planta falsa' WHERE id = (SELECT MIN(id) FROM specimen)"),
        ("Sheets numbered of each gathering",
            "UPDATE gathering SET sheets_numbered = 0 WHERE id = (SELECT MIN(id) FROM gathering)"),
        ("Sheets of each accession's list", "UPDATE accession SET sheets_on_list = 99"),
        ("What is shown of protected places", "UPDATE gathering SET locality = 'by the weir' WHERE protection = 'High'"),
        ("Protection of places",
            "UPDATE gathering SET protection = 'Low' WHERE id = (SELECT MAX(id) FROM gathering)"),
        ("Protected places are kept apart, and no others",
            "UPDATE gathering SET protection = 'NotSensitive' WHERE protection = 'High'"),
        ("Numbers are on a sheet, on a roll or ready", "UPDATE number_series SET next = next + 5 WHERE use = 'Specimens'"),
        ("Numbers that lie ready are free",
            "UPDATE ready_number SET number = 1 WHERE number = (SELECT MIN(number) FROM ready_number)"),
        ("Numbers of a closed series are withheld",
            "UPDATE ready_number SET is_withheld = TRUE WHERE number = (SELECT MAX(number) FROM ready_number)"),
        ("Which series are closed",
            "UPDATE number_series SET closed_as = 'Closed', closed_because = 'a hand' WHERE use = 'Accessions'"),
        ("Rolls have no number in common",
            "INSERT INTO roll (series_id, name, first_number, last_number, act_id) "
            + "SELECT series_id, 'twin', last_number, last_number + 1, act_id FROM roll"),
        ("Numbers that are void are on no sheet",
            "INSERT INTO voided_numbers (roll_id, series_id, first_number, last_number, act_id) "
            + "SELECT MIN(r.id), r.series_id, 3, 3, MIN(r.act_id) FROM roll r WHERE r.name <> 'twin' GROUP BY r.series_id"),
        ("Numbers that are void stand on their roll", "UPDATE voided_numbers SET last_number = 99"),
        ("How catalog numbers are written",
            "UPDATE specimen SET catalog_number = 'X1' WHERE id = (SELECT MAX(id) FROM specimen)"),
        ("No number comes before it is issued",
            "UPDATE specimen SET number = 9000000 WHERE id = (SELECT MAX(id) FROM specimen)"),
        ("Permits that were corrected hold no longer",
            PermitSql("NULL") + "; " + PermitSql("(SELECT MIN(id) FROM permit)")),
        ("Gatherings and the rows they came from",
            "UPDATE batch_row SET gathering_id = NULL WHERE id = (SELECT MIN(id) FROM batch_row)"),
        ("Closed batches wait for nothing",
            "INSERT INTO batch_closing (batch_id, is_closing, day, act_id, sheets_on_list, sheets_in_pile, "
            + "sheets_numbered, sheets_set_aside) SELECT id, TRUE, '2026-03-05', act_id, 0, 0, 0, 0 FROM batch; "
            + "UPDATE batch SET closed_act_id = act_id"),
        ("Which batches are closed", "UPDATE batch SET closed_act_id = NULL WHERE id = (SELECT MIN(id) FROM batch)"),
        ("Rows and the gatherings they became",
            "UPDATE batch_row SET gathering_id = (SELECT MIN(id) FROM gathering) WHERE id = (SELECT MAX(id) FROM batch_row)"),
        ("Sheets set aside",
            "INSERT INTO set_aside (gathering_id, accession_id, batch_row_id, sheets, decision, act_id) "
            + "SELECT g.id, g.accession_id, (SELECT MIN(id) FROM batch_row), 1, 'Exchange', g.act_id FROM gathering g "
            + "WHERE g.id = (SELECT MAX(id) FROM gathering)"),
        ("What was decided about rows", "UPDATE batch_row SET decision = 'Keep' WHERE id = (SELECT MIN(id) FROM batch_row)"),
        ("Duplicates are of the first gathering", "UPDATE gathering SET duplicate_of_id = 999999"),
        ("Sheets that bear one number are told apart",
            "UPDATE accession SET terms = 'TakenOver'; "
            + "UPDATE specimen SET repeat = 1 WHERE id = (SELECT MIN(id) FROM specimen); "
            + "UPDATE part SET repeat = 1 WHERE specimen_id = (SELECT MIN(id) FROM specimen)"),
        ("Parts that were here before are of sheets that were taken over",
            "UPDATE part SET repeat = 7 WHERE id = (SELECT MIN(id) FROM part)"),
        ("Only sheets that were taken over bear a number again, or one from before",
            "UPDATE accession SET terms = 'Gift'"),
        ("One number of the numbers from before is one text",
            "UPDATE number_series SET use = 'FromBefore' WHERE use = 'Specimens'; "
            + "UPDATE specimen SET number = 77, repeat = id"),
        ("That each specimen has a part",
            "DELETE FROM step_entry; DELETE FROM custody_entry; DELETE FROM part"),
    ];

    private static string PermitSql(string replaces) =>
        "INSERT INTO permit (batch_id, kind, number, issuer, country, state_province, counties, taxa, conditions, "
        + "replaces_id, act_id, version) SELECT MIN(id), 'Other', '1', '', '', '', '', '', '', " + replaces
        + ", MIN(act_id), '00000000-0000-0000-0000-000000000000' FROM batch";

    [Fact]
    public async Task What_the_doors_did_agrees_and_what_hands_did_is_found()
    {
        using var curator = await server.SignInAsync(Role.Curator);
        var pile = await Pile.TakeInAsync(server, curator, List);
        await Bench.RegisterRollAsync(curator, pile.Prefix, 2, 4);
        using var scanner = new Scanner(await server.SignInAsync(Role.Technician), pile);
        await scanner.ScanAsync(pile.Code(3), pile.Gatherings[0]);
        await scanner.NextAsync(pile.Gatherings[0]);
        await scanner.NextAsync(pile.Gatherings[1]);
        await scanner.NextAsync(pile.Gatherings[1]);
        await curator.SubmitAsync(await curator.GetPageAsync($"/gathering/{pile.Gatherings[0]}/protection"), "form.form",
            [("Category", "High"), ("ReviewOn", "2030-01-01"), ("Reason", "rare")]);
        Assert.Empty(await Pile.VerifyAsync(server));
        var (exit, said) = await CommandAsync();
        Assert.True(exit == 0, said);
        Assert.Contains("agrees with its entries", said, StringComparison.Ordinal);

        foreach (var (check, sql) in Tampering)
        {
            Assert.DoesNotContain(await Pile.VerifyAsync(server), wrong => wrong.Check == check
                && check != "Protected places are kept apart, and no others");
            await server.InRegisterAsync(db => db.Database.ExecuteSqlRawAsync(sql));
            var found = (await Pile.VerifyAsync(server)).Where(wrong => wrong.Check == check).ToList();
            Assert.True(found.Count > 0, $"{check} did not notice: {sql}");
            Assert.DoesNotContain(found, wrong => wrong.ToString().Contains("weir", StringComparison.Ordinal));
        }

        (exit, said) = await CommandAsync("--json");
        Assert.Equal(3, exit);
        Assert.Contains("\"subject\":\"gathering ", said, StringComparison.Ordinal);
    }

    private Task<(int ExitCode, string Said)> CommandAsync(params string[] more) => ServerProcess.RunAsync(
        ["verify", "--data", server.Store.Folder, .. server.Store.Settings.SelectMany(s => new[] { "--set", s }), .. more]);
}
