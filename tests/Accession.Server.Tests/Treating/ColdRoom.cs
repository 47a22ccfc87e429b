using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Server.Tests.Ground;
using Accession.Server.Tests.Numbering;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tests.Treating;

/// <summary>A freezer, a regime, a house rule and two places, all written down through the pages. All are invented.</summary>
internal sealed class ColdRoom : IDisposable
{
    private const string List = """
        Collector,Coll. No.,Date coll.,State,County,Species,Sheets
        Orla Finch,7,2024-06-14,Oregon,Harney,Poa secunda J.Presl,9
        """;

    public required TestServer Server { get; init; }

    public required Visitor Curator { get; init; }

    public required Visitor Technician { get; init; }

    public required string Freezer { get; init; }

    public required string Name { get; init; }

    public static async Task<ColdRoom> OpenAsync(TestServer server)
    {
        var name = $"{Guid.NewGuid():N}"[..8];
        var curator = await server.SignInAsync(Role.Curator);
        var page = await curator.GetPageAsync("/freezers");
        Sent(await curator.SubmitAsync(page, "form[action$='handler=Freezer']",
            [("name", $"Freezer {name}"), ("place", "Cellar")]));
        // Opens at once, so that a test need not wait for the warmth of the room.
        Sent(await curator.SubmitAsync(page, "form[action$='handler=Regime']",
            [("regime", $"Cold {name}"), ("celsius", "-30"), ("hours", "72"), ("sealedFor", "0"), ("source", "Invented")]));
        Sent(await curator.SubmitAsync(page, "form[action$='handler=Rule']",
        [
            ("text", $"Rule {name}"), ("ruleSource", "Invented"), ("from", "2020-01-01"), ("lines", "-30 72"),
            ("ruleSealedFor", "0"),
        ]));
        foreach (var (place, zone) in new[]
        {
            ($"Room {name}", "CollectionRoom"), ($"Office {name}", "Outside"), ($"Shelf {name}", "Quarantine"),
        })
        {
            // A form that is sent again is the same request: each place has its own.
            var places = await curator.GetPageAsync("/places");
            Sent(await curator.SubmitAsync(
                places, "form[action$='handler=Place']", [("name", place), ("zone", zone)]));
        }

        var freezer = await server.InRegisterAsync(db => db.Freezers
            .Where(f => f.Name == $"Freezer {name}").Select(f => f.Id).SingleAsync());
        return new ColdRoom
        {
            Server = server,
            Curator = curator,
            Technician = await server.SignInAsync(Role.Technician),
            Freezer = $"{freezer}",
            Name = name,
        };
    }

    /// <summary>A pile of nine sheets of one gathering, none numbered.</summary>
    public Task<Pile> PileAsync() => Pile.TakeInAsync(Server, Curator, InventedNames.OfAnother(List, Name));

    public async Task<string> TagAsync(int daysAgo = 10)
    {
        var page = await Technician.GetPageAsync("/parcels");
        var answer = Sent(await Technician.SubmitAsync(page, "form[action='/parcels']", Door(daysAgo)));
        return answer.Location!.Split('/')[^1];
    }

    public (string, string)[] Door(int daysAgo = 10) =>
    [
        ("FromWhom", $"Sender {Name}"),
        ("CameOn", TimeProvider.System.GetUtcNow().UtcDateTime.AddDays(-daysAgo).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
        ("Boxes", "2"), ("Standing", "Shelf Q3"),
    ];

    public async Task TieAsync(string tag, Pile pile) => Sent(await Curator.SubmitAsync(
        await Curator.GetPageAsync($"/parcel/{tag}"), "form[action$='handler=Tie']",
        [("batch", pile.BatchPath.Split('/')[^1])]));

    public async Task<int> BeginAsync()
    {
        var page = await Technician.GetPageAsync("/freezer-loads");
        var regime = await Server.InRegisterAsync(db => db.Regimes
            .Where(r => r.Name == $"Cold {Name}").Select(r => r.Id).SingleAsync());
        var answer = Sent(await Technician.SubmitAsync(page, "form[action='/freezer-loads']",
            [("Freezer", Freezer), ("Regime", $"{regime}")]));
        return int.Parse(answer.Location!.Split('/')[^1], CultureInfo.InvariantCulture);
    }

    public async Task<Page> AddAsync(int load, string code, bool withSheets = false, bool beginAgain = false) =>
        await Technician.SubmitAsync(
            await PageAsync(load), "form[action$='handler=Add']",
            [
                ("code", code), .. withSheets ? [("withSheets", "true")] : Array.Empty<(string, string)>(),
                .. beginAgain ? [("beginAgain", "true")] : Array.Empty<(string, string)>(),
            ]);

    public Task<Page> CloseAsync(int load, int hoursAgo) => ThenAsync(load, "Close", hoursAgo);

    public Task<Page> TakeOutAsync(int load, int hoursAgo) => ThenAsync(load, "TakeOut", hoursAgo);

    public async Task<Page> UnderRuleAsync(int load)
    {
        var rule = await Server.InRegisterAsync(db => db.HouseRules
            .Where(r => r.Text == $"Rule {Name}").Select(r => r.Id).SingleAsync());
        return await Technician.SubmitAsync(
            await PageAsync(load), "form[action$='handler=HouseRule']", [("rule", $"{rule}")]);
    }

    public async Task<Page> RecordAsync(int load, string handler, string reason, Visitor? by = null)
    {
        var visitor = by ?? Technician;
        var page = await visitor.GetPageAsync($"/freezer-load/{load}");
        return await visitor.SubmitAsync(page, "form[action$='handler=Failed']", [("Reason", reason)],
            press: handler == "Failed" ? null : $"button[formaction$='handler={handler}']");
    }

    public async Task<Page> MoveAsync(string zone, params string[] codes)
    {
        var to = await Server.InRegisterAsync(db => db.Places
            .Where(p => p.Name == $"{zone} {Name}").Select(p => p.Id).SingleAsync());
        return await Technician.SubmitAsync(
            await Technician.GetPageAsync("/places"), "form[action='/places']",
            [("Codes", string.Join("\n", codes)), ("To", $"{to}")]);
    }

    public Task<Page> PageAsync(int load) => Technician.GetPageAsync($"/freezer-load/{load}");

    public static Page Sent(Page answer)
    {
        Assert.True(answer.Refusals.Count == 0 && answer.Location is not null, $"{answer.Status}: {answer.Text}");
        return answer;
    }

    public void Dispose()
    {
        Curator.Dispose();
        Technician.Dispose();
    }

    private async Task<Page> ThenAsync(int load, string handler, int hoursAgo) => await Technician.SubmitAsync(
        await PageAsync(load), $"form[action$='handler={handler}']",
        [("When", hoursAgo == 0 ? "" : TimeProvider.System.GetUtcNow().UtcDateTime.AddHours(-hoursAgo).ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture))]);
}
