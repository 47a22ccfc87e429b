using System.Runtime.InteropServices;
using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What is compared of one person: 13 bytes.</summary>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
internal readonly record struct PersonMark
{
    private readonly byte _tail;   // five bits of the second family name's first letter, three bits of the suffix

    private PersonMark(ulong family, ushort initials, ushort given, int second, int suffix) =>
        (Family, Initials, Given, _tail) = (family, initials, given, (byte)((second << 3) | suffix));

    /// <summary>The letters of the family name; 0 for a person known by initials or a religious name.</summary>
    public ulong Family { get; }

    /// <summary>The first three initials, five bits each, the first in the highest.</summary>
    public ushort Initials { get; }

    /// <summary>Hash of the first given name where it is spelled out; 0 for an initial.</summary>
    public ushort Given { get; }

    /// <summary>First letter of the second family name, 1 to 26; 0 when there is none.</summary>
    public int Second => _tail >> 3;

    /// <summary>Which suffix; 0 when there is none.</summary>
    public int Suffix => _tail & 7;

    /// <summary>Whether a person stands here at all.</summary>
    public bool IsPresent => Family != 0 || Initials != 0;

    /// <summary>
    /// The family name as it is heard, by which two spellings meet; of a person without one the initials. Never 0.
    /// </summary>
    public ulong Sound => Family == 0 ? StableHash.With(1, Initials) : LetterRow.Skeleton(Family);

    /// <summary>Makes the mark of a name.</summary>
    public static PersonMark Of(PersonName name)
    {
        var initials = 0;
        for (var i = 0; i < Math.Min(3, name.Initials.Length); i++)
        {
            initials |= LetterOf(name.Initials[i]) << ((2 - i) * 5);
        }

        var (family, second) = Families(name);
        return new(
            LetterRow.Of(family),
            (ushort)initials,
            StableHash.Short(FirstGiven(name.Given)),
            second.Length == 0 ? 0 : LetterOf(LetterFolding.Plain(second[0])),
            SuffixOf(name.SuffixKey));
    }

    /// <summary>The mark of a group, which is equal to itself and to nothing else.</summary>
    /// <remarks>"ex herb. X" is where the sheet came from, which here is X.</remarks>
    public static PersonMark OfGroup(string group)
    {
        const string FromHerbarium = "exherb";
        var key = LetterFolding.Key(group).AsSpan();
        key = key.StartsWith(FromHerbarium, StringComparison.Ordinal) && key.Length > FromHerbarium.Length
            ? key[FromHerbarium.Length..]
            : key;
        return new(LetterRow.OfGroup(key), 0, 0, 0, 0);
    }

    /// <summary>An initial, 1 to 26; 0 past the end.</summary>
    public int Initial(int place) => place > 2 ? 0 : (Initials >> ((2 - place) * 5)) & 31;

    /// <summary>How many initials are held, up to three.</summary>
    public int InitialCount => Initial(0) == 0 ? 0 : Initial(1) == 0 ? 1 : Initial(2) == 0 ? 2 : 3;

    // "Flores-Macías" is the "Flores M." of another label; "Al-Zein" is one name.
    private static (string Family, string Second) Families(PersonName name)
    {
        const int LeastOfFirst = 4;
        var hyphen = name.Second.Length > 0 ? -1 : name.Family.AsSpan().IndexOfAny('-', '\u2010', '\u2011');
        if (hyphen < LeastOfFirst || hyphen + 1 == name.Family.Length)
        {
            return (name.FamilyKey, name.Second);
        }

        var first = new PersonName(name.Family[..hyphen]).FamilyKey;
        return first.Length < LeastOfFirst ? (name.FamilyKey, "") : (first, name.Family[(hyphen + 1)..]);
    }

    private static int LetterOf(char c) => c is >= 'a' and <= 'z' ? c - 'a' + 1 : 0;

    private static string FirstGiven(string given)
    {
        var end = given.AsSpan().IndexOfAny(' ', '.', '-');
        var first = end < 0 ? given.AsSpan() : given.AsSpan(0, end);

        // "Wm." and "MK" are no names that could differ from another.
        var isShort = first.Length <= 2 || (end >= 0 && given[end] == '.') || NameWord.IsCapitalRun(first);
        return isShort ? "" : LetterFolding.Key(first);
    }

    private static int SuffixOf(string key) => key switch
    {
        "" => 0,
        "jr" => 1,
        "sr" => 2,
        "ii" => 3,
        "iii" => 4,
        "iv" => 5,
        "filho" or "hijo" or "fils" => 6,
        _ => 7,
    };
}
