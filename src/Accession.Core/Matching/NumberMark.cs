using System.Runtime.InteropServices;
using Accession.Core.Gatherings;
using Accession.Core.People;

namespace Accession.Core.Matching;

/// <summary>What is compared of one collector's number: 12 bytes.</summary>
[StructLayout(LayoutKind.Sequential, Pack = 1)]
internal readonly record struct NumberMark
{
    private NumberMark(ushort prefix, ushort suffix, uint before, uint run) =>
        (Prefix, Suffix, Before, Run) = (prefix, suffix, before, run);

    /// <summary>Hash of the prefix; 0 when there is none.</summary>
    public ushort Prefix { get; }

    /// <summary>Hash of the suffix; 0 when there is none.</summary>
    public ushort Suffix { get; }

    /// <summary>What stands before the last run of digits, such as the year of a series; 0 when nothing does.</summary>
    public uint Before { get; }

    /// <summary>The last run of digits, plus one, so that the number 0 is not a missing one; 0 when missing.</summary>
    public uint Run { get; }

    /// <summary>Whether there is a number.</summary>
    public bool IsPresent => Run != 0;

    /// <summary>Makes the mark of a number.</summary>
    public static NumberMark Of(CollectorNumber number)
    {
        uint before = 0, run = 0;
        var text = number.Number.AsSpan();
        while (text.IndexOfAnyInRange('0', '9') is var start and >= 0)
        {
            text = text[start..];
            var length = text.IndexOfAnyExceptInRange('0', '9');
            var digits = (length < 0 ? text : text[..length]).TrimStart('0');
            before = run == 0 ? 0 : before == 0 ? run : Short(StableHash.With(before, run));
            run = ValueOf(digits);
            text = length < 0 ? default : text[length..];
        }

        return new(
            number.IsPrefixWords ? (ushort)0 : StableHash.Short(LetterFolding.Key(number.Prefix)),
            StableHash.Short(SuffixKey(number.Suffix)),
            before,
            run);
    }

    // Digits that do not fit are held as a hash: they can still be equal, and nobody counts that far.
    private static uint ValueOf(ReadOnlySpan<char> digits) => digits.Length <= 9
        ? (digits.IsEmpty ? 0 : uint.Parse(digits, System.Globalization.CultureInfo.InvariantCulture)) + 1
        : Short(StableHash.Of(digits));

    private static uint Short(ulong hash) => (uint)(hash >> 33) | 0x8000_0000;

    // In a suffix a capital I and a small l cannot be told apart on most labels.
    private static string SuffixKey(string suffix)
    {
        var key = LetterFolding.Key(suffix);
        return key.Length > 0 ? key.Replace('i', 'l') : suffix;
    }
}
