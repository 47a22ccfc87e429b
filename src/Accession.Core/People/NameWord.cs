using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>What a word of a name can be, judged by its form alone.</summary>
internal enum WordKind
{
    /// <summary>A name spelled out.</summary>
    Word,

    /// <summary>One or more initials: "J.", "J", "JR", "J.-P.".</summary>
    Initials,

    /// <summary>A shortened name with a stop: "Fco.", "Ch.".</summary>
    Abbreviation,

    /// <summary>A particle in small letters.</summary>
    Particle,

    /// <summary>A particle with a capital, which belongs to the family name: "Van", "De".</summary>
    CapitalParticle,

    /// <summary>Jr., III, Filho.</summary>
    Suffix,

    /// <summary>Dr., Mrs.</summary>
    Title,
}

/// <summary>One word of a name.</summary>
/// <param name="Text">The word as written, with its stop.</param>
/// <param name="Kind">What its form says.</param>
/// <param name="IsGlued">Whether no space stood before it: "J.R." is two words, of which the second is glued.</param>
internal readonly record struct NameWord(string Text, WordKind Kind, bool IsGlued)
{
    /// <summary>Longest row of capitals that is read as initials: "MDMS" is, "GURNEL" is not.</summary>
    private const int LongestCapitalRun = 4;

    /// <summary>Takes a text apart into words; spaces and inner stops divide.</summary>
    /// <param name="text">A text without commas.</param>
    /// <param name="isAllCapitals">Whether the whole text around it knows no small letter.</param>
    public static List<NameWord> Split(ReadOnlySpan<char> text, bool isAllCapitals)
    {
        var words = new List<NameWord>(6);
        var start = 0;
        var isGlued = false;
        for (var i = 0; i <= text.Length; i++)
        {
            var isSpace = i == text.Length || char.IsWhiteSpace(text[i]);
            var isStop = !isSpace && text[i] == '.' && i + 1 < text.Length && char.IsLetter(text[i + 1])
                && !IsParticleWithStops(text[start..]);
            if (!isSpace && !isStop)
            {
                continue;
            }

            var end = isStop ? i + 1 : i;
            if (end > start)
            {
                Add(words, text[start..end], isGlued, isAllCapitals);
            }

            start = isStop ? end : i + 1;
            isGlued = isStop;
        }

        return words;
    }

    /// <summary>Whether the text is two to four capitals, as initials are written without stops.</summary>
    public static bool IsCapitalRun(ReadOnlySpan<char> text)
    {
        if (text.Length is < 2 or > LongestCapitalRun)
        {
            return false;
        }

        foreach (var c in text)
        {
            if (!char.IsUpper(c))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether a given name consists of initials alone, with or without stops.</summary>
    public static bool IsInitialsOnly(string given)
    {
        var letters = 0;
        foreach (var c in given)
        {
            letters = char.IsLetter(c) ? letters + 1 : 0;
            if (letters > LongestCapitalRun || (letters > 0 && !char.IsUpper(c)))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsParticleWithStops(ReadOnlySpan<char> text) =>
        text.StartsWith("v.d", StringComparison.Ordinal) && (text.Length <= 4 || !char.IsLetter(text[3]));

    private static void Add(List<NameWord> words, ReadOnlySpan<char> piece, bool isGlued, bool isAllCapitals)
    {
        piece = piece.Trim("\"“”*<>=_?!:~^\\`");
        if (piece is "." or "-" or "–" or "" or "'")
        {
            return;
        }

        var text = piece.ToString();
        words.Add(new(text, KindOf(text, isAllCapitals), isGlued));
    }

    private static WordKind KindOf(string text, bool isAllCapitals)
    {
        var hasStop = text[^1] == '.';
        var core = hasStop ? text.AsSpan(0, text.Length - 1) : text.AsSpan();
        if (core.Length == 1)
        {
            return char.IsLower(core[0]) && NameLexicon.IsParticle(text) ? WordKind.Particle : WordKind.Initials;
        }

        if (IsHyphenatedInitials(core))
        {
            return WordKind.Initials;
        }

        if (NameLexicon.IsSuffix(text) && text is not ("JR" or "SR"))
        {
            return WordKind.Suffix;
        }

        if (NameLexicon.IsParticle(text))
        {
            return ParticleKind(text, isAllCapitals);
        }

        if (NameLexicon.IsTitle(text) && !IsCapitalRun(text))
        {
            return WordKind.Title;
        }

        if (IsCapitalRun(core))
        {
            return IsInitialsInCapitals(core, isAllCapitals) ? WordKind.Initials : WordKind.Word;
        }

        return hasStop && core.Length <= 4 ? WordKind.Abbreviation : WordKind.Word;
    }

    private static WordKind ParticleKind(string text, bool isAllCapitals)
    {
        if (char.IsLower(text[0]) || text[0] == '\'')
        {
            return WordKind.Particle;
        }

        // "DA SILVA" in a text of capitals says nothing about the case of the particle; "DA" elsewhere are initials.
        if (IsCapitalRun(text))
        {
            return isAllCapitals ? WordKind.Particle : WordKind.Initials;
        }

        return NameLexicon.IsGiven(text) ? WordKind.Word : WordKind.CapitalParticle;   // "Ben", "Al"
    }

    /// <summary>"J.-P." and "J-P": single letters joined by hyphens.</summary>
    private static bool IsHyphenatedInitials(ReadOnlySpan<char> core)
    {
        var letters = 0;
        var run = 0;
        var hasHyphen = false;
        foreach (var c in core)
        {
            run = char.IsLetter(c) ? run + 1 : 0;
            letters += run > 0 ? 1 : 0;
            hasHyphen |= c == '-';
            if (run > 1 || (run == 0 && c is not ('-' or '.')))
            {
                return false;
            }
        }

        return hasHyphen && letters > 1;
    }

    /// <summary>In a text of capitals "LEE" and "KIM" are names; "JR" and "RBK" are not.</summary>
    private static bool IsInitialsInCapitals(ReadOnlySpan<char> core, bool isAllCapitals)
    {
        if (!isAllCapitals || core.Length == 2)
        {
            return true;
        }

        foreach (var c in core)
        {
            if (Folding.Plain(c) is 'a' or 'e' or 'i' or 'o' or 'u' or 'y')
            {
                return false;
            }
        }

        return true;
    }
}
