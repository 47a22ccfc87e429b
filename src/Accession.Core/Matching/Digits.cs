namespace Accession.Core.Matching;

/// <summary>Compares rows of digits as a hurried hand writes them.</summary>
internal static class Digits
{
    /// <summary>Whether one digit is wrong, missing or too many, or two neighbours are swapped.</summary>
    public static bool AreOneOff(ReadOnlySpan<char> one, ReadOnlySpan<char> other)
    {
        if (one.Length > other.Length)
        {
            return AreOneOff(other, one);
        }

        var same = one.CommonPrefixLength(other);
        var a = one[same..];
        var b = other[same..];
        return (b.Length - a.Length) switch
        {
            0 => a.Length > 0 && (a[1..].SequenceEqual(b[1..])
                || (a.Length > 1 && a[0] == b[1] && a[1] == b[0] && a[2..].SequenceEqual(b[2..]))),
            1 => a.SequenceEqual(b[1..]),
            _ => false,
        };
    }
}
