using System.Text;
using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>Brackets in a text of collectors: remarks, additions by a later hand, or all of it in brackets.</summary>
internal static class BracketText
{
    /// <summary>Takes off brackets and quotes that enclose the whole text.</summary>
    public static ReadOnlySpan<char> WithoutOuter(ReadOnlySpan<char> text)
    {
        while (text.Length > 2 && Closing(text[0]) is var closing and not '\0' && text[^1] == closing
            && text[1..^1].IndexOfAny(text[0], closing) < 0)
        {
            text = text[1..^1].Trim();
        }

        return text;
    }

    /// <summary>
    /// Takes out remarks in brackets. Square brackets round a part of a word ("J[ane]") or before a name add what the
    /// writer left out, and only the signs go.
    /// </summary>
    /// <param name="text">The text.</param>
    /// <param name="number">The first remark that is a number, as "(618)"; else empty.</param>
    public static ReadOnlySpan<char> WithoutInner(ReadOnlySpan<char> text, out string number)
    {
        number = "";
        if (text.IndexOfAny("([{") < 0)
        {
            return text;
        }

        var kept = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            var closing = text[i] is '(' or '[' or '{' ? Closing(text[i]) : '\0';
            var length = closing == '\0' ? -1 : text[(i + 1)..].IndexOf(closing);
            if (length < 0)
            {
                kept.Append(text[i] is '(' or '[' or '{' or ')' or ']' or '}' ? ' ' : text[i]);
                continue;
            }

            var inner = text.Slice(i + 1, length);
            if (Folding.Key(inner) is "etal" or "etalii" or "andothers" or "yotros")
            {
                kept.Append(" et al. ");
            }
            else if (text[i] == '[' && IsAddition(text, i, length))
            {
                kept.Append(inner);
            }
            else if (number.Length == 0 && inner.Length > 0 && inner.Trim().IndexOfAnyExceptInRange('0', '9') < 0)
            {
                number = inner.Trim().ToString();
            }

            i += length + 1;
        }

        return kept.ToString();
    }

    private static bool IsAddition(ReadOnlySpan<char> text, int open, int length)
    {
        if (open > 0 && char.IsLetter(text[open - 1]))
        {
            return true;
        }

        var inner = text.Slice(open + 1, length);
        var before = text[..open].TrimEnd();
        var after = text[(open + length + 2)..].TrimStart();
        var beginsName = before.IsEmpty || before[^1] is ';' or '|' or '&' or ',';
        return beginsName && inner.Length <= 24 && inner.IndexOfAnyInRange('0', '9') < 0
            && !CollectorPhrases.MeansNobody(inner)
            && (after.IsEmpty || char.IsLetter(after[0]) || after[0] is ',' or ';' or '.');
    }

    private static char Closing(char opening) => opening switch
    {
        '(' => ')',
        '[' => ']',
        '{' => '}',
        '"' => '"',
        '\'' => '\'',
        '“' => '”',
        '«' => '»',
        _ => '\0',
    };
}
