using System.Globalization;

namespace Accession.Benchmarks.Matching;

/// <summary>
/// Labels of gatherings that never were: collectors who go out every few days, number what they bring from one on, and
/// come back to the same places. Every label follows from its number and the seed, so nothing is held.
/// </summary>
internal sealed class InventedLabels(int seed)
{
    /// <summary>How many gatherings one collector has in the register.</summary>
    public const int EachCollector = 400;

    private const int Families = 6000;
    private const int EachDay = 12;

    private static readonly string[] Given =
        ["Ada", "Bruno", "Carla", "Dietmar", "Edda", "Fritjof", "Greta", "Hanno", "Ilse", "Jorun", "Klaus", "Livia",
            "Magnus", "Nora", "Orrin", "Petra", "Quentin", "Rosalba", "Sverre", "Thea", "Ulrich", "Vera", "Wanda", "Yrsa"];

    private static readonly string[] Beginnings =
        ["Quill", "Oak", "Dun", "Tarn", "Fen", "Süder", "Vale", "Brack", "Ash", "Merrow", "Pine", "Øster", "Hollo", "Gorm",
            "Lind", "Storr", "Wend", "Karst", "Ruk", "Thal"];

    private static readonly string[] Middles = ["", "fe", "ha", "mar", "le", "wri", "ho", "go", "san", "ti", "er", "bo"];

    private static readonly string[] Ends =
        ["ther", "hurst", "marsh", "ley", "ght", "hof", "rin", "water", "grove", "dale", "castle", "brink", "well", "sen",
            "mann", "ström", "by", "field", "ov", "ez", "ton", "wick", "low", "gard", "stad"];

    private static readonly string[] Particles = ["van der", "de la", "von", "van den"];
    private static readonly string[] Counties = ["Harney", "Malheur", "Lake", "Grant", "Baker", "Wallowa", "Crook"];

    private static readonly string[] Sites =
        ["Alder Creek", "Juniper Flat", "Cold Spring Ridge", "Sheep Camp", "Sagehen Butte", "Heron Marsh", "Cairn Pass",
            "Whitehorse Rim", "Dry Lakes", "Cold Ford", "Gable Spring", "Long Hollow"];

    private static readonly string[] Ways =
        ["above the ford on the east bank", "below the rim", "at the junction of track and creek",
            "on the slope above the reservoir", "along the fence between two meadows", "upstream from the culvert"];

    private static readonly string[] Genera =
        ["Poa", "Carex", "Juncus", "Phlox", "Salix", "Stipa", "Draba", "Lupinus", "Erigeron", "Penstemon", "Allium",
            "Mimulus", "Astragalus", "Lomatium", "Castilleja", "Eriogonum"];

    private static readonly string[] Epithets =
        ["secunda", "nebrascensis", "balticus", "hoodii", "exigua", "comata", "verna", "lepidus", "pumilus", "speciosus",
            "deustus", "aridus", "montanus", "glabra", "humilis", "nivea", "parvum", "elatior", "crispa", "nutans"];

    /// <summary>The label of a gathering of the register, or of one beyond it.</summary>
    public InventedLabel Of(long gathering) => Of(gathering / EachCollector, (int)(gathering % EachCollector));

    /// <summary>The nth label of a collector; those from <see cref="EachCollector"/> on are in no register.</summary>
    public InventedLabel Of(long collector, int n)
    {
        var day = n / EachDay;
        var site = Pick(collector, 40 + day, Sites.Length);
        return new()
        {
            Given = Given[Pick(collector, 1, Given.Length)],
            Middle = (char)('A' + Pick(collector, 2, 26)),
            Particle = Pick(collector, 3, 20) == 0 ? Particles[Pick(collector, 4, Particles.Length)] : "",
            Family = FamilyOf(collector, 5),
            Companion = Pick(collector, 60 + day, 3) == 0 ? FamilyOf(collector * 31, 6 + (day % 3)) : "",
            Number = Pick(collector, 7, 4000) + n + 1,
            Series = Pick(collector, 8, 6) == 0,
            Day = new DateOnly(1930 + Pick(collector, 9, 80), 1 + Pick(collector, 10, 12), 1)
                .AddDays((day * 6) + Pick(collector, 80 + day, 5)),
            County = Counties[Pick(collector, 11 + (day / 8), Counties.Length)],
            Site = Sites[site],
            Miles = 1 + Pick(collector, 1000 + n, 30),
            Way = Ways[Pick(collector, 2000 + (n / 3), Ways.Length)],
            Genus = Genera[Pick(collector, 3000 + n, Genera.Length)],
            Epithet = Epithets[Pick(collector, 5000 + n, Epithets.Length)],
            Latitude = 42.5 + (Pick(collector, 7000 + day, 15000) / 10000.0),
            Longitude = -119.9 + (Pick(collector, 8000 + day, 19000) / 10000.0),
        };
    }

    /// <summary>A number below <paramref name="choices"/> that follows from what it is drawn for.</summary>
    public int Pick(long what, int salt, int choices)
    {
        // The finishing steps of SplitMix64 (Steele, Lea, Flood: Fast splittable pseudorandom number generators, 2014).
        var z = unchecked(((ulong)what * 0x9E3779B97F4A7C15) + ((ulong)salt * 0xD1B54A32D192ED03) + (ulong)seed);
        z = unchecked((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9);
        z = unchecked((z ^ (z >> 27)) * 0x94D049BB133111EB);
        return (int)((z ^ (z >> 31)) % (ulong)choices);
    }

    // Few names are borne by many: the product of two draws leans to the small.
    private string FamilyOf(long who, int salt)
    {
        var rank = (int)((long)Pick(who, salt, Families) * Pick(who, salt + 400, Families) / Families);
        return Beginnings[rank % Beginnings.Length] + Middles[rank / Beginnings.Length % Middles.Length]
            + Ends[rank / (Beginnings.Length * Middles.Length) % Ends.Length];
    }
}

/// <summary>What stands on a label, before somebody wrote it in their way.</summary>
internal sealed record InventedLabel
{
    public static readonly string[] Headings =
        ["Collector", "Number", "Date", "Country", "State", "County", "Locality", "Habitat", "Latitude", "Longitude",
            "Elevation m", "Species", "Determined by", "Notes"];

    public required string Given { get; init; }

    public required char Middle { get; init; }

    public required string Particle { get; init; }

    public required string Family { get; init; }

    public required string Companion { get; init; }

    public required int Number { get; init; }

    public required bool Series { get; init; }

    public required DateOnly Day { get; init; }

    public required string County { get; init; }

    public required string Site { get; init; }

    public required int Miles { get; init; }

    public required string Way { get; init; }

    public required string Genus { get; init; }

    public required string Epithet { get; init; }

    public required double Latitude { get; init; }

    public required double Longitude { get; init; }

    /// <summary>As the register has it: names in full, the day in ISO 8601.</summary>
    public string[] AsHeld() => Cells(
        $"{Given} {Middle}. {Surname}{Team}", Series ? $"{Family[0]}-{Number}" : Text($"{Number}"), Text($"{Day:yyyy-MM-dd}"),
        $"{Miles} km N of {Site}, {Way}");

    /// <summary>As another hand writes it: each part in one of several ways.</summary>
    /// <param name="ways">Draws for each part.</param>
    public string[] AsVariant(Func<int, int, int> ways)
    {
        var surname = Particle.Length == 0 ? Family : ways(1, 2) == 0
            ? Particle.Replace(" ", "", StringComparison.Ordinal) + Family
            : $"{char.ToUpperInvariant(Particle[0])}{Particle[1..]} {Family}";
        var person = ways(2, 4) switch
        {
            0 => $"{Given[0]}. {Middle}. {surname}",
            1 => $"{surname}, {Given[0]}. {Middle}.",
            2 => $"{surname}, {Given} {Middle}.",
            _ => $"{Given[0]}. {surname}",
        };
        var number = ways(3, 5) switch
        {
            0 => Text($"{Number:00000}"),
            1 => Text($"{Number}a"),
            2 => Series ? $"{Family[0]} {Number}" : Text($"{Number}"),
            _ => Series ? $"{Family[0]}-{Number}" : Text($"{Number}"),
        };
        var day = ways(4, 4) switch
        {
            0 => Text($"{Day:d MMMM yyyy}"),
            1 => Text($"{Day:d MMM yyyy}"),
            _ => Text($"{Day:yyyy-MM-dd}"),
        };
        var place = ways(5, 3) switch
        {
            0 => $"{Site}, {Way}, {Miles} km N",
            1 => $"{Miles} km north of {Site}",
            _ => $"{Miles} km N of {Site}, {Way}",
        };
        return Cells(person + (ways(6, 4) == 0 ? "" : Team), number, day, place);
    }

    private string Surname => Particle.Length == 0 ? Family : $"{Particle} {Family}";

    private string Team => Companion.Length == 0 ? "" : $" & T. {Companion}";

    private string[] Cells(string collector, string number, string day, string locality) =>
        [collector, number, day, "United States", "Oregon", County, locality, "sagebrush on silt", Text($"{Latitude:F4}"),
            Text($"{Longitude:F4}"), Text($"{1200 + (Miles * 10)}"), $"{Genus} {Epithet}", "R. Quillon",
            "shrub to 6 dm; flowers yellow"];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
