using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>The keys of <see cref="Folding"/> under the name by which matching calls them.</summary>
internal static class LetterFolding
{
    /// <inheritdoc cref="Folding.Key"/>
    public static string Key(ReadOnlySpan<char> text) => Folding.Key(text);

    /// <inheritdoc cref="Folding.LongKey"/>
    public static string LongKey(ReadOnlySpan<char> text) => Folding.LongKey(text);

    /// <inheritdoc cref="Folding.Plain"/>
    public static char Plain(char c) => Folding.Plain(c);

    /// <inheritdoc cref="Folding.KeyInto"/>
    public static int KeyInto(Span<char> buffer, ReadOnlySpan<char> text) => Folding.KeyInto(buffer, text);
}
