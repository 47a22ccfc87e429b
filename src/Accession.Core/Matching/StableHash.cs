namespace Accession.Core.Matching;

/// <summary>
/// The one hash of keys and signatures. They are stored, so it gives the same on every machine, in every version and
/// on both databases; the runtime's own hashes do not.
/// </summary>
/// <remarks>
/// FNV-1a over the 16-bit letters, then the finishing steps of MurmurHash3 (both in the public domain), so that short
/// cuts of it are as good as the whole. Arithmetic runs over here on purpose.
/// </remarks>
internal static class StableHash
{
    private const ulong Basis = 0xCBF29CE484222325;
    private const ulong Prime = 0x00000100000001B3;

    /// <summary>Of a text.</summary>
    public static ulong Of(ReadOnlySpan<char> text)
    {
        unchecked
        {
            var hash = Basis;
            foreach (var letter in text)
            {
                hash = (hash ^ letter) * Prime;
            }

            return Finish(hash);
        }
    }

    /// <summary>Of a hash and one more value; the order matters.</summary>
    public static ulong With(ulong hash, ulong value)
    {
        unchecked
        {
            return Finish(((hash * Prime) ^ value) * Prime);
        }
    }

    /// <summary>Sixteen bits of a text, never 0; 0 for an empty text, which is missing and no value.</summary>
    public static ushort Short(ReadOnlySpan<char> text) => text.IsEmpty ? (ushort)0 : Short(Of(text));

    /// <summary>Sixteen bits of a hash, never 0.</summary>
    public static ushort Short(ulong hash) => (ushort)Math.Max(1, hash >> 48);

    private static ulong Finish(ulong hash)
    {
        unchecked
        {
            hash = (hash ^ (hash >> 33)) * 0xFF51AFD7ED558CCD;
            hash = (hash ^ (hash >> 33)) * 0xC4CEB9FE1A85EC53;
            return hash ^ (hash >> 33);
        }
    }
}
