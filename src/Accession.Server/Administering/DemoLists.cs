using System.Globalization;

namespace Accession.Server.Administering;

/// <summary>The lists that came to the demo's door. Everybody who sends or collects is invented.</summary>
public static class DemoLists
{
    /// <summary>Who gave a private herbarium, and follows where its sheets are.</summary>
    public const string Giver = "Sylvester Quern";

    /// <summary>A list at the door.</summary>
    public sealed record AtTheDoor(string Source, string FileName, DemoList List);

    /// <summary>Dates in figures that can be read two ways, a day that does not exist, a number of sheets in
    /// words.</summary>
    public static AtTheDoor WithQuestions()
    {
        var list = DemoList.Of(11, "Ottilie Brackwater & C. Fennimore", k => $"{2140 + k}", 26);
        for (var k = 0; k < 6; k++)
        {
            list.Rows[k] = list.Rows[k] with { Date = $"{k + 7:00}/06/{DemoList.Season}" };
        }

        list.Rows[12] = list.Rows[12] with { Date = $"31 June {DemoList.Season}" };
        list.Rows[17] = list.Rows[17] with { Sheets = "two" };
        list.Rows[21] = list.Rows[21] with { Latitude = "93.11872" };
        return new("Ottilie Brackwater, sagebrush transects", "brackwater-transects.csv", list);
    }

    /// <summary>Read without a question, but for one row whose date nobody knows any more.</summary>
    public static AtTheDoor Settled()
    {
        var list = DemoList.Of(12, "Tadeo Marlpit", k => $"{DemoList.Season}-{k + 1:00}", 24);
        list.Rows[9] = list.Rows[9] with { Date = "after the rain" };
        return new("Tadeo Marlpit, student herbarium", "marlpit plant list.csv", list);
    }

    /// <summary>The first list of the volunteers, with slips that the second one mends.</summary>
    public static AtTheDoor Volunteers() =>
        new("Dry Lakes volunteers", "volunteers.csv", DemoList.Of(13, "Nell Harrowgate; Bram Solhede", Harrowgate, 30));

    /// <summary>The volunteers' list again: three rows corrected, two withdrawn, two added.</summary>
    public static AtTheDoor VolunteersAgain()
    {
        var list = Volunteers().List;
        list.Rows[3] = list.Rows[3] with { Locality = "Number Nine corral, inside the fence" };
        list.Rows[8] = list.Rows[8] with { Sheets = "3" };
        list.Rows[14] = list.Rows[14] with { Remarks = "In fruit; the list said in flower." };
        list.Rows.RemoveAt(27);
        list.Rows.RemoveAt(22);
        foreach (var row in DemoList.Of(14, "Nell Harrowgate; Bram Solhede", k => Harrowgate(30 + k), 2).Rows)
        {
            list.Rows.Add(row);
        }

        return new("Dry Lakes volunteers", "volunteers corrected.csv", list);
    }

    /// <summary>A survey whose sheets are being numbered.</summary>
    public static AtTheDoor HalfNumbered() => new(
        "Hedda Lindenrook, Candlestick Rim survey", "candlestick-rim.csv",
        DemoList.Of(15, "H. Lindenrook", k => $"{708 + k}{(k % 9 == 4 ? "a" : "")}", 30));

    /// <summary>A gift that is numbered to the last sheet; among it the plant whose place is protected.</summary>
    public static AtTheDoor Numbered()
    {
        var list = DemoList.Of(16, Giver, k => k % 7 == 6 ? "s.n." : $"SQ {61 + k}", 20);
        var (plant, county) = (DemoFlora.Protected, DemoPlaces.Harney);
        list.Rows[12] = list.Rows[12] with
        {
            County = county.Name,
            Locality = "Ash hill 2 km W of Pepperpot Butte, above the fence corner",
            Latitude = "43.20418",
            Longitude = "-118.91733",
            Feet = "4,990",
            Habitat = "Bare volcanic ash between sagebrush, facing south",
            Name = plant.Name,
            Family = plant.Family,
            Remarks = plant.Says,
            Sheets = "1",
        };
        return new($"{Giver}, gift of a private herbarium", "quern.csv", list);
    }

    /// <summary>
    /// Sheets of an exchange, of which another collection kept others: some are of gatherings of the gift, with slips
    /// of the pen; one bears a number that the gift has too, from another place and year.
    /// </summary>
    public static AtTheDoor Exchange()
    {
        var list = DemoList.Of(17, "S. Quern", k => $"SQ {341 + k}", 9);
        var held = Numbered().List.Rows.Where(row => row.Number != "s.n.").ToList();
        list.Rows[1] = held[2] with { Collector = "Quern, S.", Sheets = "2", Feet = "", Remarks = "" };
        list.Rows[3] = held[4] with { Collector = "Sylv. Quern", Date = Spoken(held[4].Date), Sheets = "1" };
        list.Rows[4] = held[7] with
        {
            Collector = "S. Quern",
            Date = held[7].Date.Replace($"{DemoList.Season}", $"{DemoList.Season - 10}", StringComparison.Ordinal),
        };
        list.Rows[6] = list.Rows[6] with { Number = held[9].Number, Date = "2019-06-02" };
        list.Rows[7] = held[11] with { Collector = "S. Quern", Number = "s.n.", Name = held[0].Name, Family = "" };
        return new("Tule Basin Herbarium, exchange", "tule-basin-exchange.csv", list);
    }

    // As on a label: 5 May 2025.
    private static string Spoken(string day) => DateOnly.ParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture)
        .ToString("d MMM yyyy", CultureInfo.InvariantCulture);

    private static string Harrowgate(int k) => string.Create(CultureInfo.InvariantCulture, $"NH-{k + 301}");
}
