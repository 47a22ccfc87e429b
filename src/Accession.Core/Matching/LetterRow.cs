using System.Numerics;

namespace Accession.Core.Matching;

/// <summary>
/// The first twelve letters of a family name in 60 bits, so that a signature holds the letters themselves and one
/// letter too many, too few or wrong is still found exactly. A name in other letters than a to z is held as a hash
/// and can only be equal or not.
/// </summary>
internal static class LetterRow
{
    /// <summary>How many letters are held.</summary>
    public const int Length = 12;

    private const ulong Hashed = 1UL << 63;

    /// <summary>Packs a folded name; 0 for an empty one.</summary>
    public static ulong Of(ReadOnlySpan<char> key)
    {
        if (key.IsEmpty)
        {
            return 0;
        }

        var row = 0UL;
        for (var i = 0; i < key.Length; i++)
        {
            if (key[i] is not (>= 'a' and <= 'z'))
            {
                return Hashed | (StableHash.Of(key) >> 1);
            }

            if (i < Length)
            {
                row |= (ulong)(key[i] - 'a' + 1) << Shift(i);
            }
        }

        return row;
    }

    /// <summary>The hash of a text in place of letters: of a group, which is no family.</summary>
    public static ulong OfGroup(ReadOnlySpan<char> key) => key.IsEmpty ? 0 : Hashed | (StableHash.Of(key) >> 1);

    /// <summary>The letter at a place, 1 to 26 for a to z; 0 past the end.</summary>
    public static int At(ulong row, int place) =>
        (row & Hashed) != 0 || place >= Length ? 0 : (int)((row >> Shift(place)) & 31);

    /// <summary>How many letters are held; 0 for a hash.</summary>
    public static int CountOf(ulong row) =>
        row == 0 || (row & Hashed) != 0 ? 0 : Length - (BitOperations.TrailingZeroCount(row) / 5);

    /// <summary>Whether one row begins with the other, which has fewer letters.</summary>
    public static bool Begins(ulong longer, ulong shorter)
    {
        var count = CountOf(shorter);
        return count > 0 && count < CountOf(longer) && longer >> Shift(count - 1) == shorter >> Shift(count - 1);
    }

    /// <summary>
    /// Whether two rows differ in spelling only: ue for u, oe for o, ae and aa for a, as the long spellings of the
    /// north have them.
    /// </summary>
    public static bool AreOneSpelling(ulong one, ulong other) => one == other
        || (At(one, 0) == At(other, 0) && CountOf(one) > 0 && CountOf(other) > 0 && Plain(one) == Plain(other));

    /// <summary>
    /// How many letters must be written otherwise, added, dropped or swapped with their neighbour to make one row the
    /// other (the optimal string alignment distance); more than two is answered as 3.
    /// </summary>
    public static int Distance(ulong one, ulong other)
    {
        const int TooFar = 3;
        int n = CountOf(one), m = CountOf(other);
        if (n == 0 || m == 0 || Math.Abs(n - m) >= TooFar
            || BitOperations.PopCount(Letters(one, n) ^ Letters(other, m)) > 2 * (TooFar - 1))
        {
            return TooFar;
        }

        Span<byte> before = stackalloc byte[Length + 1];
        Span<byte> last = stackalloc byte[Length + 1];
        Span<byte> now = stackalloc byte[Length + 1];
        for (var j = 0; j <= m; j++)
        {
            last[j] = (byte)j;
        }

        for (var i = 1; i <= n; i++)
        {
            now[0] = (byte)i;
            var least = i;
            for (var j = 1; j <= m; j++)
            {
                int a = At(one, i - 1), b = At(other, j - 1);
                var best = Math.Min(Math.Min(last[j] + 1, now[j - 1] + 1), last[j - 1] + (a == b ? 0 : 1));
                if (i > 1 && j > 1 && a == At(other, j - 2) && At(one, i - 2) == b)
                {
                    best = Math.Min(best, before[j - 2] + 1);
                }

                now[j] = (byte)best;
                least = Math.Min(least, best);
            }

            if (least >= TooFar)
            {
                return TooFar;
            }

            var spare = before;
            before = last;
            last = now;
            now = spare;
        }

        return Math.Min((int)last[m], TooFar);
    }

    /// <summary>
    /// What is left of a name when it is heard rather than read: its consonants in classes of like sound, vowels and
    /// h, w, y left out, doubles counted once. The first letter stays a place of its own. Never 0.
    /// </summary>
    public static ulong Skeleton(ulong row)
    {
        if ((row & Hashed) != 0)
        {
            return row;
        }

        var skeleton = 1UL;
        var last = -1;
        for (var i = 0; i < CountOf(row); i++)
        {
            var sound = SoundOf(At(row, i));
            if ((sound > 0 || i == 0) && sound != last)
            {
                skeleton = (skeleton << 3) | (uint)sound;
                last = sound;
            }
        }

        return skeleton;
    }

    // The classes of Soundex (Russell, US patents 1,261,167 and 1,435,663), with the first letter in a class too.
    private static int SoundOf(int letter) => (char)(letter - 1 + 'a') switch
    {
        'b' or 'f' or 'p' or 'v' => 1,
        'c' or 'g' or 'j' or 'k' or 'q' or 's' or 'x' or 'z' => 2,
        'd' or 't' => 3,
        'l' => 4,
        'm' or 'n' => 5,
        'r' => 6,
        _ => 0,
    };

    // Which letters occur. An edit changes at most two of them, so that most names are told apart by this alone.
    private static uint Letters(ulong row, int count)
    {
        var letters = 0U;
        for (var i = 0; i < count; i++)
        {
            letters |= 1U << At(row, i);
        }

        return letters;
    }

    private static ulong Plain(ulong row)
    {
        var plain = 0UL;
        var length = 0;
        for (var i = 0; i < CountOf(row); i++)
        {
            var letter = At(row, i);
            var last = i == 0 ? 0 : At(row, i - 1);
            var isLengthening = letter switch { 5 => last is 1 or 15 or 21, 1 => last == 1, _ => false };
            if (!isLengthening)
            {
                plain |= (ulong)letter << Shift(length++);
            }
        }

        return plain;
    }

    private static int Shift(int place) => (Length - 1 - place) * 5;
}
