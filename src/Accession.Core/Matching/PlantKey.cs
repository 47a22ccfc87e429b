using Accession.Core.Gatherings;
using Accession.Core.People;
using Accession.Core.Texts;

namespace Accession.Core.Matching;

/// <summary>
/// A plant's name as far as comparing needs it: genus, species and infraspecific epithet without authors, doubts and
/// signs of hybrids. Not a full reading of botanical names.
/// </summary>
/// <param name="Genus">The genus, folded; empty when there is none.</param>
/// <param name="Species">The species epithet, folded; empty when the plant was named to genus only.</param>
/// <param name="Infraspecific">The last infraspecific epithet, folded; often empty.</param>
public readonly record struct PlantKey(string Genus, string Species, string Infraspecific)
{
    private static readonly string[] Ranks =
        ["subsp", "ssp", "var", "f", "fo", "forma", "subvar", "subf", "convar", "nothosubsp", "nothovar",
        "nothof", "subspec", "fma", "variety"];

    private static readonly string[] Doubts =
        ["cf", "aff", "prox", "nr", "x", "×", "?", "cfr", "vel", "affin", "(cf.)", "(aff.)"];

    private static readonly string[] Nothing =
        ["sp", "spp", "spec", "indet", "species", "sp.nov", "ined", "undetermined", "unknown", "unidentified"];

    // "Hook. f. ex Drake": the f. of a son, with more of the author behind it.
    private static readonly string[] OfAuthors = ["ex", "et", "in", "and", "of"];

    /// <summary>Reads a name. Never throws.</summary>
    /// <param name="name">The name to the letter.</param>
    public static PlantKey Of(string name)
    {
        var words = name.Split([' ', '\t', '\u00A0', '_'], StringSplitOptions.RemoveEmptyEntries);
        string genus = "", species = "", infra = "";
        var expectsInfra = false;
        foreach (var word in words)
        {
            var bare = word.TrimEnd('.', ',', ';', '?').TrimStart('×', '?', '[', '(').TrimEnd(']');
            var lower = bare.ToLowerInvariant();
            if (bare.Length == 0 || Doubts.Contains(lower))
            {
                continue;
            }

            if (genus.Length == 0)
            {
                if (Nothing.Contains(lower) || !IsLetters(bare))
                {
                    break;
                }

                genus = LetterFolding.Key(bare);
            }
            else if (species.Length == 0 && !char.IsUpper(bare[0]) && IsLetters(bare))
            {
                if (Nothing.Contains(lower) || Ranks.Contains(lower))
                {
                    break;
                }

                species = LetterFolding.Key(bare);
            }
            else if (Ranks.Contains(lower) && char.IsLower(bare[0]))
            {
                expectsInfra = true;
            }
            else if (expectsInfra && IsLetters(bare) && !char.IsUpper(bare[0]))
            {
                if (OfAuthors.Contains(lower))
                {
                    expectsInfra = false;
                    continue;
                }

                (infra, expectsInfra) = (LetterFolding.Key(bare), false);
            }
        }

        return new(genus, species, infra == species ? "" : infra);
    }

    // A name in capitals throughout is an old card's way of writing, not a row of authors.
    internal static PlantKey Of(FieldNotes notes)
    {
        var name = notes.NameVerbatim;
        return Of(name.Any(char.IsLower) ? name : Folding.Fold(name));
    }

    private static bool IsLetters(string word) => word.Length > 1 && word.All(c => char.IsLetter(c) || c == '-');
}
