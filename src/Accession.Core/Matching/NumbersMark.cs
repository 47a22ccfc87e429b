using System.Runtime.InteropServices;
using Accession.Core.Gatherings;
using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What is compared of the numbers of a gathering: up to two of them, 25 bytes.</summary>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
internal readonly struct NumbersMark
{
    private NumbersMark(NumberMark first, NumberMark second, NumberFlags flags) =>
        (First, Second, Flags) = (first, second, flags);

    /// <summary>The first or only number.</summary>
    public NumberMark First { get; }

    /// <summary>The second number, or the end of a range.</summary>
    public NumberMark Second { get; }

    /// <summary>What else is known of the numbers.</summary>
    public NumberFlags Flags { get; }

    /// <summary>How many numbers are held.</summary>
    public int Count => !First.IsPresent ? 0 : Second.IsPresent ? 2 : 1;

    /// <summary>Whether the label states that there is no number.</summary>
    public bool IsStatedAbsent => (Flags & NumberFlags.StatedAbsent) != 0;

    /// <summary>Reads the number to the letter.</summary>
    /// <param name="notes">The field notes; a number that the list had lost has an empty key there.</param>
    public static NumbersMark Of(FieldNotes notes)
    {
        var reading = CollectorNumber.Read(notes.RecordNumber);
        if (!reading.IsRead)
        {
            return default;
        }

        var numbers = reading.Value;
        if (numbers.IsWithoutNumber)
        {
            return new(default, default, NumberFlags.StatedAbsent);
        }

        if (notes.NumberKey.Length == 0)
        {
            return default;   // a spreadsheet's date, say: what stands there is not what the collector wrote
        }

        var flags = (numbers.IsRange ? NumberFlags.Range : 0) | (numbers.IsUncertain ? NumberFlags.Uncertain : 0)
            | (IsInitials(numbers.Numbers[0].IsPrefixWords ? "" : numbers.Numbers[0].Prefix, notes)
                ? NumberFlags.PrefixIsInitials
                : 0)
            | (numbers.Numbers[0].Suffix.Length > 1 && IsInitials(numbers.Numbers[0].Suffix, notes)
                ? NumberFlags.SuffixIsInitials
                : 0);
        return new(
            NumberMark.Of(numbers.Numbers[0]),
            numbers.Numbers.Count > 1 ? NumberMark.Of(numbers.Numbers[1]) : default,
            flags);
    }

    /// <summary>
    /// A prefix or suffix that is made of the collector's own initials says nothing beside the collector.
    /// </summary>
    private static bool IsInitials(string letters, FieldNotes notes)
    {
        var key = LetterFolding.Key(letters);
        if (key.Length is 0 or > 4)
        {
            return false;
        }

        var reading = Collectors.Read(notes.CollectorsVerbatim);
        return reading.IsRead && reading.Value.Persons.Any(person => person.FamilyKey.Length > 0
            && (Sorted(key) == Sorted(person.Initials + person.FamilyKey[0]) || key == $"{person.FamilyKey[0]}"));
    }

    // On most labels a capital I and a small l are one sign.
    private static string Sorted(string letters) => string.Concat(letters.Replace('i', 'l').Order());
}

/// <summary>What is known of a gathering's numbers beside the numbers.</summary>
[Flags]
internal enum NumberFlags : byte
{
    /// <summary>The label states that there is none.</summary>
    StatedAbsent = 1,

    /// <summary>Both are the ends of a range.</summary>
    Range = 2,

    /// <summary>The writer or a later hand doubted it.</summary>
    Uncertain = 4,

    /// <summary>The prefix is made of a collector's initials.</summary>
    PrefixIsInitials = 8,

    /// <summary>The suffix is made of a collector's initials.</summary>
    SuffixIsInitials = 16,
}
