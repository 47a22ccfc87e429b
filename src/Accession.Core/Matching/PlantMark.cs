using System.Runtime.InteropServices;
using Accession.Core.Gatherings;
using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What is compared of a plant's name: 8 bytes of hashes, 0 where there is nothing.</summary>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
internal readonly record struct PlantMark
{
    private PlantMark(ushort family, ushort genus, ushort species, ushort infraspecific) =>
        (Family, Genus, Species, Infraspecific) = (family, genus, species, infraspecific);

    /// <summary>The family, where the list names it.</summary>
    public ushort Family { get; }

    /// <summary>The genus.</summary>
    public ushort Genus { get; }

    /// <summary>The species epithet without its ending, which changes with the gender of the genus.</summary>
    public ushort Species { get; }

    /// <summary>The infraspecific epithet, likewise.</summary>
    public ushort Infraspecific { get; }

    /// <summary>Reads the name of the field notes.</summary>
    public static PlantMark Of(FieldNotes notes)
    {
        var name = PlantKey.Of(notes);
        return new(
            StableHash.Short(LetterFolding.Key(notes.Family)),
            StableHash.Short(name.Genus),
            StableHash.Short(Stem(name.Species)),
            StableHash.Short(Stem(name.Infraspecific)));
    }

    // -us, -a, -um, -is, -e, -er: an epithet follows the gender of its genus (the Code, Art. 23.5).
    private static ReadOnlySpan<char> Stem(string epithet)
    {
        foreach (var ending in (ReadOnlySpan<string>)["us", "um", "is", "a", "e"])
        {
            if (epithet.Length > ending.Length + 2 && epithet.EndsWith(ending, StringComparison.Ordinal))
            {
                return epithet.AsSpan(0, epithet.Length - ending.Length);
            }
        }

        return epithet;
    }
}
