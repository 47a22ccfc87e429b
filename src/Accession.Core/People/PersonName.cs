using System.Text;
using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>
/// The name of one person as it stands on labels, taken apart. The parts keep the spelling of the label; comparing is
/// done through the keys. Two names are equal when they differ only in what carries no meaning on a label: case,
/// accents, hyphens, stops and spaces. <c>M. K.</c> and <c>Mark K.</c> are not equal, but compatible.
/// </summary>
/// <param name="Family">
/// The family name, or the first of two; capitals of a whole word are lowered ("GURNEL" is Gurnel). A particle with a
/// capital belongs to it ("Van der Molen"). Empty for a person known by initials or by a religious name.
/// </param>
/// <param name="Given">Given names and initials as written, without titles; often empty.</param>
/// <param name="Particle">A particle in small letters, such as <c>de la</c> or <c>van der</c>; often empty.</param>
/// <param name="Second">The second family name, or its initial, as in Spanish custom; often empty.</param>
/// <param name="Suffix">What tells generations apart, such as Jr., III or Filho, as written; often empty.</param>
public sealed record PersonName(
    string Family,
    string Given = "",
    string Particle = "",
    string Second = "",
    string Suffix = "")
{
    private string? _familyKey;
    private string? _longFamilyKey;
    private string? _initials;

    /// <summary>
    /// The family name for comparing: lower case, without accents, hyphens, spaces and leading particles. Of a
    /// Portuguese pair joined by <c>e</c> the last name counts.
    /// </summary>
    public string FamilyKey => _familyKey ??= Folding.Key(FamilyCore());

    /// <summary>
    /// The same with the long spellings (ü as ue, ø as oe, å as aa), so that two spellings of one name can meet.
    /// </summary>
    public string LongFamilyKey => _longFamilyKey ??= Folding.LongKey(FamilyCore());

    /// <summary>
    /// The initials of the given names, lower case, without stops: "mk" for Mark K.; a hyphenated name gives two.
    /// </summary>
    public string Initials => _initials ??= GivenNames.InitialsOf(Given);

    /// <summary>
    /// The suffix for comparing, so that <c>Jr</c>, <c>Jr.</c> and <c>Jnr.</c> meet; empty when there is none.
    /// </summary>
    public string SuffixKey => Folding.Key(Suffix) switch
    {
        "jnr" or "junior" or "jun" => "jr",
        "snr" or "senior" or "sen" => "sr",
        "2nd" => "ii",
        "3rd" => "iii",
        "netto" => "neto",
        var other => other,
    };

    /// <summary>
    /// Whether both family names are one in any of the spellings that are tried: long and short vowels, and two family
    /// names with or without a hyphen.
    /// </summary>
    /// <param name="other">The name to compare with.</param>
    public bool HasSameFamily(PersonName other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return FamilyKey == other.FamilyKey
            || LongFamilyKey == other.LongFamilyKey
            || FamilyKey == other.LongFamilyKey
            || LongFamilyKey == other.FamilyKey
            || (Second.Length > 0 && FamilyKey + Folding.Key(Second) == other.FamilyKey)
            || (other.Second.Length > 0 && other.FamilyKey + Folding.Key(other.Second) == FamilyKey);
    }

    /// <summary>
    /// Whether both may be one person: one family, no given name or second family name that contradicts, and not two
    /// different suffixes. An initial that is missing on one side contradicts nothing. Compatible is not equal.
    /// </summary>
    /// <param name="other">The name to compare with.</param>
    public bool IsCompatibleWith(PersonName other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return HasSameFamily(other)
            && (SuffixKey.Length == 0 || other.SuffixKey.Length == 0 || SuffixKey == other.SuffixKey)
            && OneBeginsTheOther(Folding.Key(Second), Folding.Key(other.Second))
            && GivenNames.AreCompatible(Given, other.Given);
    }

    /// <summary>Whether the names are the same in all that carries meaning on a label.</summary>
    /// <param name="other">The name to compare with.</param>
    public bool Equals(PersonName? other) =>
        other is not null
        && FamilyKey == other.FamilyKey
        && SuffixKey == other.SuffixKey
        && Folding.Key(Second) == Folding.Key(other.Second)
        && ParticleKey() == other.ParticleKey()
        && GivenNames.AreEqual(Given, other.Given);

    /// <summary>A hash that agrees with <see cref="Equals(PersonName)"/>.</summary>
    public override int GetHashCode() => HashCode.Combine(FamilyKey, Initials, SuffixKey);

    /// <summary>The name in the order of speech: <c>M. K. Torvald, Jr.</c></summary>
    public override string ToString()
    {
        var text = new StringBuilder();
        Add(text, Given);
        Add(text, Particle);
        Add(text, Family);
        Add(text, Second);
        return Suffix.Length == 0 ? text.ToString() : text.Append(", ").Append(Suffix).ToString();
    }

    /// <summary>
    /// The name with the family first, as in a list: <c>Molen, A. van der</c> or <c>Torvald, M. K., Jr.</c>
    /// </summary>
    public string DisplayInverted
    {
        get
        {
            var text = new StringBuilder();
            Add(text, Family);
            Add(text, Second);
            var separator = text.Length == 0 ? "" : ",";
            foreach (var part in (ReadOnlySpan<string>)[Given, Particle])
            {
                if (part.Length > 0)
                {
                    text.Append(separator);
                    Add(text, part);
                    separator = "";
                }
            }

            return Suffix.Length == 0 ? text.ToString() : text.Append(", ").Append(Suffix).ToString();
        }
    }

    /// <summary>Leading capitalised particles off, and of "Quental e Prado" the last.</summary>
    private ReadOnlySpan<char> FamilyCore()
    {
        var core = Family.AsSpan();
        var and = Family.LastIndexOf(" e ", StringComparison.Ordinal);
        core = and < 0 ? core : core[(and + 3)..];
        while (core.IndexOf(' ') is var space and > 0 && NameLexicon.IsDroppedParticle(core[..space]))
        {
            core = core[(space + 1)..].TrimStart();
        }

        return core;
    }

    private string ParticleKey()
    {
        // "Van der Molen" and "van der Molen" are one spelling: what the family name carries is the particle too.
        var core = FamilyCore();
        var inside = core.Length < Family.Length && !Family.Contains(" e ", StringComparison.Ordinal)
            ? Family[..^core.Length]
            : "";
        return Folding.Key($"{Particle}{inside}") switch
        {
            "vd" or "vder" => "vander",
            var key => key,
        };
    }

    private static bool OneBeginsTheOther(string one, string other) =>
        one.StartsWith(other, StringComparison.Ordinal) || other.StartsWith(one, StringComparison.Ordinal);

    private static void Add(StringBuilder text, string part)
    {
        if (part.Length > 0)
        {
            _ = text.Length > 0 ? text.Append(' ').Append(part) : text.Append(part);
        }
    }
}
