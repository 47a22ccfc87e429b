using System.Buffers;
using System.Text;

namespace Accession.Core.Standards;

/// <summary>
/// The rule by which a text becomes one line that any format can carry. Labels and spreadsheets bring tabs, line breaks
/// and worse; a tab-separated file has no way to quote them, and XML 1.0 cannot even name most control characters.
/// </summary>
public static class OneLine
{
    /// <summary>
    /// Every character that becomes a space: the control characters U+0000 to U+001F and U+007F to U+009F, and the
    /// line and paragraph separators U+2028 and U+2029, at which some readers break a line. It is public for queries
    /// that apply the same rule in the database.
    /// </summary>
    public static string Breaking { get; } = BreakingCharacters();

    private static readonly SearchValues<char> Suspects = SearchValues.Create(Breaking + Surrogates());

    // The bytes at which a breaking character may begin. The last two also begin harmless ones, as the degree sign.
    private static readonly SearchValues<byte> SuspectBytes =
        SearchValues.Create([.. Enumerable.Range(0, 0x20).Select(code => (byte)code), 0x7F, 0xC2, 0xE2]);

    /// <summary>
    /// The text as one line: a carriage return with its line feed becomes one space, every other character of
    /// <see cref="Breaking"/> a space of its own, and half a surrogate pair, which UTF-8 cannot write, U+FFFD. Nothing
    /// else changes: no trimming, no folding. A text without such characters comes back as it is.
    /// </summary>
    /// <param name="text">Any text; null is read as empty.</param>
    public static string Of(string? text)
    {
        if (string.IsNullOrEmpty(text))
        {
            return "";
        }

        var first = text.AsSpan().IndexOfAny(Suspects);
        return first < 0 ? text : Replace(text, first);
    }

    /// <summary>
    /// The same rule for text that is UTF-8 already and valid, as a database hands it out: no string is made of it.
    /// </summary>
    /// <param name="utf8">Any text.</param>
    /// <param name="line">Where the line goes: at least as long as the text, which never grows.</param>
    /// <returns>How many bytes were written.</returns>
    public static int Of(ReadOnlySpan<byte> utf8, Span<byte> line)
    {
        var first = utf8.IndexOfAny(SuspectBytes);
        if (first < 0)
        {
            utf8.CopyTo(line);
            return utf8.Length;
        }

        utf8[..first].CopyTo(line);
        var written = first;
        for (var i = first; i < utf8.Length;)
        {
            var breaking = BreakingBytesAt(utf8[i..]);
            if (breaking == 0)
            {
                line[written++] = utf8[i++];
                continue;
            }

            line[written++] = (byte)' ';
            i += breaking;
        }

        return written;
    }

    private static string Replace(string text, int first)
    {
        var line = new StringBuilder(text.Length).Append(text, 0, first);
        for (var i = first; i < text.Length; i++)
        {
            var c = text[i];
            var hasNext = i + 1 < text.Length;
            if (c == '\r' && hasNext && text[i + 1] == '\n')
            {
                continue;   // the line feed that follows writes the one space
            }

            if (char.IsHighSurrogate(c) && hasNext && char.IsLowSurrogate(text[i + 1]))
            {
                line.Append(c).Append(text[++i]);
            }
            else
            {
                line.Append(char.IsSurrogate(c) ? '\uFFFD' : IsBreaking(c) ? ' ' : c);
            }
        }

        return line.ToString();
    }

    // How many bytes at the beginning become one space: U+0080 to U+009F are C2 80 to C2 9F, U+2028 and U+2029 are
    // E2 80 A8 and E2 80 A9.
    private static int BreakingBytesAt(ReadOnlySpan<byte> utf8) => utf8 switch
    {
        [(byte)'\r', (byte)'\n', ..] => 2,
        [< 0x20 or 0x7F, ..] => 1,
        [0xC2, >= 0x80 and <= 0x9F, ..] => 2,
        [0xE2, 0x80, 0xA8 or 0xA9, ..] => 3,
        _ => 0,
    };

    private static bool IsBreaking(char c) => char.IsControl(c) || c is '\u2028' or '\u2029';

    private static string BreakingCharacters() =>
        new([.. Enumerable.Range(0, char.MaxValue + 1).Select(code => (char)code).Where(IsBreaking)]);

    private static string Surrogates() =>
        new([.. Enumerable.Range(0xD800, 0x800).Select(code => (char)code)]);
}
