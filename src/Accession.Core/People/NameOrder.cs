using System.Collections.Frozen;
using System.Text;

namespace Accession.Core.People;

/// <summary>
/// Decides which of several full words are given names and which is the family name, when no comma says so. Custom
/// differs between languages; where the form leaves it open, short lists of common names decide.
/// </summary>
internal static class NameOrder
{
    /// <summary>A name that ends with a full word: "M. K. Torvald", "Kim Min-ju", "P. de la Roca Vey".</summary>
    public static PersonName WithoutTail(List<NameWord> words)
    {
        var count = words.Count;
        if (count == 1)
        {
            return SingleWord(words[0]);
        }

        if (IsEasternOrder(words))
        {
            return new PersonName(Family(words, 0, 1), PersonNameReader.Join(words, 1, count));
        }

        var particle = LastParticle(words);
        if (particle >= 0)
        {
            return WithParticle(words, particle);
        }

        if (words[0].Kind == WordKind.Word && count >= 2 && IsSpanishOrder(words))
        {
            return TwoFamilies(words);
        }

        var isTwo = words[0].Kind != WordKind.Word && count > 2 && IsSpanishOrder(words);
        return isTwo ? TwoFamilies(words) : LastIsFamily(words);
    }

    /// <summary>Where the particles before a word begin; the word's own place when there are none.</summary>
    public static int ParticlesBefore(List<NameWord> words, int place)
    {
        var start = place;
        while (start > 0 && words[start - 1].Kind is WordKind.Particle or WordKind.CapitalParticle)
        {
            start--;
        }

        return start;
    }

    /// <summary>Words of a family name, joined by spaces and out of capitals.</summary>
    public static string Family(List<NameWord> words, int start, int end)
    {
        if (end - start == 1)
        {
            return InNameCase(words[start]);
        }

        return end <= start ? "" : PersonNameReader.Join(words, start, end);
    }

    /// <summary>"GURNEL" as Gurnel, "O'DORNEL" as O'Dornel; everything else as written.</summary>
    public static string InNameCase(NameWord word)
    {
        var text = word.Text;
        if (word.Kind == WordKind.Particle)
        {
            return char.IsUpper(text[0]) ? text.ToLowerInvariant() : text;
        }

        if (word.Kind != WordKind.Word || text.Length < 2 || !char.IsUpper(text[0]))
        {
            return text;
        }

        foreach (var c in text)
        {
            if (char.IsLower(c))
            {
                return text;
            }
        }

        var cased = new StringBuilder(text.Length);
        var isFirst = true;
        foreach (var c in text)
        {
            cased.Append(isFirst ? c : char.ToLowerInvariant(c));
            isFirst = !char.IsLetter(c);
        }

        return cased.ToString();
    }

    private static PersonName LastIsFamily(List<NameWord> words)
    {
        var start = words.Count - 1;
        while (start > 1 && NameLexicon.BeginsFamily(words[start - 1].Text) && !IsGiven(words[start - 1]))
        {
            start--;
        }

        return new PersonName(Family(words, start, words.Count), PersonNameReader.Join(words, 0, start));
    }

    private static PersonName TwoFamilies(List<NameWord> words)
    {
        var count = words.Count;
        return new PersonName(
            Family(words, count - 2, count - 1),
            PersonNameReader.Join(words, 0, count - 2),
            Second: Family(words, count - 1, count));
    }

    /// <summary>One word: a family, or a name in Han or Hangul whose first character is the family.</summary>
    private static PersonName SingleWord(NameWord word)
    {
        var text = word.Text;
        if (text.Length is < 2 or > 4 || !IsEasternScript(text))
        {
            return new PersonName(InNameCase(word));
        }

        var length = text.Length == 4 || EasternPairs.Contains(text[..2]) ? 2 : 1;
        return new PersonName(text[..length], text[length..]);
    }

    /// <summary>Chinese and Korean family names of two characters; all others have one.</summary>
    private static readonly FrozenSet<string> EasternPairs = FrozenSet.Create(
        "欧阳", "歐陽", "司马", "司馬", "诸葛", "諸葛", "上官", "皇甫", "남궁", "황보", "제갈", "선우");

    private static bool IsEasternScript(string text)
    {
        foreach (var c in text)
        {
            if (c is not ((>= '\u4E00' and <= '\u9FFF') or (>= '\uAC00' and <= '\uD7A3')
                or (>= '\u3040' and <= '\u30FF')))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsEasternOrder(List<NameWord> words)
    {
        if (words.Count is < 2 or > 4 || !words.TrueForAll(w => w.Kind == WordKind.Word))
        {
            return false;
        }

        if (IsEasternScript(words[0].Text))
        {
            return true;
        }

        if (!NameLexicon.IsEasternFamily(words[0].Text) || IsGiven(words[^1]))
        {
            return false;
        }

        // "Xiao-lin", "Min-ju": a hyphen before a small letter; "Xiaolin", "Wen": Chinese syllables without a hyphen.
        var isVietnamese = words[0].Text.StartsWith("Nguy", StringComparison.OrdinalIgnoreCase) || words.Count == 4;
        return isVietnamese
            || HasSmallHyphen(words[1].Text)
            || ((words.Count == 3 || IsFirstMoreOfAFamily(words[0].Text, words[^1].Text))
                && words.Skip(1).All(w => EasternSyllables.Are(w.Text)));
    }

    /// <summary>Of two words that both are family names, the one of the most common is it.</summary>
    private static bool IsFirstMoreOfAFamily(string first, string last) =>
        !NameLexicon.IsEasternFamily(last)
        || (NameLexicon.IsCommonEasternFamily(first) && !NameLexicon.IsCommonEasternFamily(last));

    private static bool HasSmallHyphen(string text)
    {
        var hyphen = text.IndexOf('-', StringComparison.Ordinal);
        return hyphen > 0 && hyphen + 1 < text.Length && char.IsLower(text[hyphen + 1]);
    }

    /// <summary>The first of the last particles that a full word follows; -1 when there are none.</summary>
    private static int LastParticle(List<NameWord> words)
    {
        for (var i = words.Count - 2; i >= 0; i--)
        {
            if (words[i].Kind is WordKind.Particle or WordKind.CapitalParticle)
            {
                return ParticlesBefore(words, i);
            }
        }

        return -1;
    }

    private static PersonName WithParticle(List<NameWord> words, int start)
    {
        var count = words.Count;
        if (words[start].Text is "e" or "y" or "i" && start > 0 && words[start - 1].Kind == WordKind.Word)
        {
            return Joined(words, start);
        }

        var family = start;
        while (family < count - 1 && words[family].Kind is WordKind.Particle or WordKind.CapitalParticle)
        {
            family++;
        }

        // "R. Ferrero de Vey": a family name stands before the particle, and a second one after it.
        if (start >= 2 && words[start - 1].Kind == WordKind.Word && !IsGiven(words[start - 1])
            && (NameLexicon.IsSpanishFamily(words[start - 1].Text) || NameLexicon.IsSpanishGiven(words[0].Text))
            && words[start].Text is "de" or "del"
            && !NameLexicon.IsPortugueseFamily(words[family].Text))
        {
            return new PersonName(
                Family(words, start - 1, start),
                PersonNameReader.Join(words, 0, start - 1),
                Second: PersonNameReader.Join(words, start, count));
        }

        // A particle with a capital is a part of the family name: "H. Van der Molen".
        var isCapital = words[start].Kind == WordKind.CapitalParticle;
        return new PersonName(
            Family(words, isCapital ? start : family, family + 1),
            PersonNameReader.Join(words, 0, start),
            isCapital ? "" : PersonNameReader.Join(words, start, family),
            PersonNameReader.Join(words, family + 1, count));
    }

    /// <summary>"R. Quental e Prado" is one family name; "R. Ferrero y Vey" two, of which the first counts.</summary>
    private static PersonName Joined(List<NameWord> words, int and)
    {
        var start = ParticlesBefore(words, and - 1);
        var isPortuguese = words[and].Text == "e";
        return new PersonName(
            Family(words, and - 1, isPortuguese ? words.Count : and),
            PersonNameReader.Join(words, 0, start),
            PersonNameReader.Join(words, start, and - 1),
            isPortuguese ? "" : PersonNameReader.Join(words, and, words.Count));
    }

    /// <summary>Whether the last two words are family names after Spanish custom.</summary>
    private static bool IsSpanishOrder(List<NameWord> words)
    {
        var last = words[^1];
        var previous = words[^2];
        if (words.Count < 3 || last.Kind != WordKind.Word || previous.Kind != WordKind.Word || IsGiven(previous))
        {
            return false;
        }

        var isPreviousSpanish = NameLexicon.IsSpanishFamily(previous.Text);
        var isLastSpanish = NameLexicon.IsSpanishFamily(last.Text);
        var hasSpanishGiven = NameLexicon.IsSpanishGiven(words[0].Text);
        var isPortuguese = (NameLexicon.IsPortugueseFamily(last.Text) && !isLastSpanish)
            || (NameLexicon.IsPortugueseFamily(previous.Text) && !isPreviousSpanish);
        return !isPortuguese
            && ((isPreviousSpanish && (isLastSpanish || hasSpanishGiven || words[0].Kind != WordKind.Word))
                || (hasSpanishGiven && isLastSpanish));
    }

    private static bool IsGiven(NameWord word) => word.Kind == WordKind.Word && NameLexicon.IsGiven(word.Text);
}
