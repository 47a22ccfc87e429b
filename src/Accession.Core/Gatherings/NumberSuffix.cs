namespace Accession.Core.Gatherings;

/// <summary>What follows a collector's number.</summary>
internal static class NumberSuffix
{
    /// <summary>
    /// Cuts a remark in brackets off the end: "471 (22)". A letter or two in brackets are a suffix like any other and
    /// lose the brackets.
    /// </summary>
    public static string CutBracket(ref ReadOnlySpan<char> text)
    {
        var open = text.IsEmpty ? -1 : text[^1] switch
        {
            ')' => text.LastIndexOf('('),
            ']' => text.LastIndexOf('['),
            '}' => text.LastIndexOf('{'),
            _ => -1,
        };
        if (open <= 0 || text[..open].IndexOfAnyInRange('0', '9') < 0)
        {
            return "";
        }

        var bracket = text[open..];
        text = text[..open].TrimEnd();
        var inner = bracket[1..^1].Trim();
        return inner.Length is 1 or 2 && char.IsLetter(inner[0]) && char.IsLetter(inner[^1])
            ? inner.ToString()
            : bracket.ToString();
    }

    /// <summary>The suffix without the signs that only divide.</summary>
    public static ReadOnlySpan<char> Clean(ReadOnlySpan<char> text)
    {
        text = text.Trim(" -_,:;*/.");
        if (text is "p.p" or "pro parte" or "p. p" or "pp" or "pro p")
        {
            return "p.p.";
        }

        foreach (var c in text)
        {
            if (char.IsLetterOrDigit(c) || c is '½' or '¼' or '¾')
            {
                return text;
            }
        }

        return default;
    }
}
