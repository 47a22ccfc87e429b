using System.Collections.Frozen;
using Accession.Core.Matching;
using Accession.Core.People;

namespace Accession.Core.Accessions;

/// <summary>A plant that a permit names: a family, a genus or a species; what is finer counts as the species.</summary>
/// <param name="Family">The family, folded; empty when it is no family.</param>
/// <param name="Genus">The genus, folded; empty when it is a family.</param>
/// <param name="Species">The epithet, folded; empty when it is a genus or a family.</param>
internal readonly record struct PermitTaxon(string Family, string Genus, string Species)
{
    private const string FamilyEnding = "aceae";

    // The eight families that may bear an old name: International Code of Nomenclature, Art. 18.5.
    private static readonly FrozenDictionary<string, string> OldNames = new Dictionary<string, string>
    {
        ["compositae"] = "asteraceae",
        ["cruciferae"] = "brassicaceae",
        ["gramineae"] = "poaceae",
        ["guttiferae"] = "clusiaceae",
        ["labiatae"] = "lamiaceae",
        ["leguminosae"] = "fabaceae",
        ["palmae"] = "arecaceae",
        ["umbelliferae"] = "apiaceae",
    }.ToFrozenDictionary();

    /// <summary>Reads a name as a permit writes it.</summary>
    public static PermitTaxon Of(string name)
    {
        var plant = PlantKey.Of(name);
        var family = FamilyKey(plant.Genus);
        return plant.Species.Length == 0 && family.EndsWith(FamilyEnding, StringComparison.Ordinal)
            ? new(family, "", "")
            : new("", plant.Genus, plant.Species);
    }

    /// <summary>A family as it is compared: folded, under its newer name.</summary>
    public static string FamilyKey(string family)
    {
        var key = LetterFolding.Key(family);
        return OldNames.GetValueOrDefault(key, key);
    }

    /// <summary>Whether a plant is of it; null when what is written does not say.</summary>
    /// <param name="plant">The plant's name.</param>
    /// <param name="family">Its family's key; empty when none is written.</param>
    public bool? Covers(PlantKey plant, string family)
    {
        if (Family.Length > 0)
        {
            var named = family.Length > 0 ? family : FamilyKey(plant.Genus);
            return named == Family ? true
                : named.EndsWith(FamilyEnding, StringComparison.Ordinal) ? false
                : null;
        }

        return plant.Genus.Length == 0 || FamilyKey(plant.Genus).EndsWith(FamilyEnding, StringComparison.Ordinal)
                ? null
            : plant.Genus != Genus ? false
            : Species.Length == 0 || plant.Species == Species ? true
            : plant.Species.Length == 0 ? null
            : false;
    }
}
