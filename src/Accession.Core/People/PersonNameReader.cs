using System.Text;

namespace Accession.Core.People;

/// <summary>
/// Makes a name of words: in the order of speech ("M. K. Torvald"), family first without a comma ("Torvald JR"),
/// or taken apart by a comma ("Torvald, M. K.").
/// </summary>
internal static class PersonNameReader
{
    /// <summary>A name without a comma; null when nothing in it can be a name.</summary>
    public static PersonName? Direct(List<NameWord> words)
    {
        var isReligious = DropTitles(words);
        var suffix = TakeSuffix(words, isWholeName: true);
        if (words.Count == 0)
        {
            return null;
        }

        var lastName = words.FindLastIndex(IsName);
        if (lastName < 0 && words[^1] is { Kind: WordKind.Abbreviation } shortened)
        {
            lastName = words.Count - 1;   // "Ro. Ferr.": even the family name is shortened
            words[lastName] = shortened with { Kind = WordKind.Word };
        }

        if (lastName < 0)
        {
            // Initials only: a list of known persons may tell who that is; reading does not guess.
            return new PersonName("", Join(words, 0, words.Count), Suffix: suffix);
        }

        if (isReligious && words.TrueForAll(w => w.Kind == WordKind.Word) && words.Count <= 2)
        {
            return new PersonName("", Join(words, 0, words.Count), Suffix: suffix);
        }

        var name = lastName < words.Count - 1 ? WithTail(words, lastName) : NameOrder.WithoutTail(words);
        return name with { Suffix = suffix };
    }

    /// <summary>A name whose family stood before a comma and whose given names stood after it.</summary>
    public static PersonName Inverted(List<NameWord> family, List<NameWord> given, string suffix)
    {
        _ = DropTitles(family);
        _ = DropTitles(given);
        var familySuffix = TakeSuffix(family, isWholeName: false);
        var givenSuffix = TakeSuffix(given, isWholeName: false);
        suffix = suffix.Length > 0 ? suffix : familySuffix.Length > 0 ? familySuffix : givenSuffix;

        var particle = TakeParticles(family);
        var givenParticle = TakeParticles(given);
        if (particle.Length == 0)
        {
            particle = givenParticle;
        }

        var first = FamilyLength(family, 0);
        return new PersonName(
            NameOrder.Family(family, 0, first),
            Join(given, 0, given.Count),
            particle,
            NameOrder.Family(family, first, family.Count),
            suffix);
    }

    /// <summary>Words joined as they were written: a space where one stood.</summary>
    public static string Join(List<NameWord> words, int start, int end)
    {
        if (end <= start)
        {
            return "";
        }

        if (end == start + 1)
        {
            return NameOrder.InNameCase(words[start]);
        }

        var text = new StringBuilder();
        for (var i = start; i < end; i++)
        {
            if (i > start && !words[i].IsGlued)
            {
                text.Append(' ');
            }

            text.Append(NameOrder.InNameCase(words[i]));
        }

        return text.ToString();
    }

    /// <summary>How many words from a place on make one family name: "Van der Molen" is one.</summary>
    public static int FamilyLength(List<NameWord> words, int start)
    {
        var end = start;
        while (end < words.Count - 1
            && (words[end].Kind is WordKind.Particle or WordKind.CapitalParticle
                || NameLexicon.BeginsFamily(words[end].Text)))
        {
            end++;
        }

        // "Quental e Prado" is one name in two words.
        if (end + 2 < words.Count && words[end + 1].Text is "e" or "E" or "i")
        {
            end += 2;
        }

        return Math.Min(end + 1, words.Count) - start;
    }

    /// <summary>Something follows the last full name: "Torvald E. G.", "O. Ferrero G.".</summary>
    private static PersonName WithTail(List<NameWord> words, int lastName)
    {
        var tailStart = lastName + 1;
        var end = words.FindLastIndex(w => w.Kind is not (WordKind.Particle or WordKind.CapitalParticle)) + 1;
        var particle = Join(words, end, words.Count);
        var head = words.FindIndex(w => w.Kind is WordKind.Initials or WordKind.Abbreviation);
        var names = words.FindIndex(IsName);
        var lead = Join(words, 0, LeadingParticles(words, lastName));
        var familyStart = LeadingParticles(words, lastName);
        var familyEnd = familyStart + FamilyLength(words[..tailStart], familyStart);
        var isFamilyFirst = head >= tailStart && names >= 0
            && (familyEnd == tailStart || IsTwoFamilies(words, familyStart, tailStart, end));
        if (isFamilyFirst)
        {
            return new PersonName(
                NameOrder.Family(words, familyStart, familyEnd),
                Join(words, tailStart, end),
                lead.Length > 0 ? lead : particle,
                NameOrder.Family(words, familyEnd, tailStart));
        }

        if (end == tailStart)
        {
            // Only particles follow: "J. R. Mota da". They belong to the family.
            return NameOrder.WithoutTail(words[..end]) with { Particle = particle };
        }

        var start = NameOrder.ParticlesBefore(words, lastName);
        var isCapital = start < lastName && words[start].Kind == WordKind.CapitalParticle;
        return new PersonName(
            NameOrder.Family(words, isCapital ? start : lastName, tailStart),
            Join(words, 0, start),
            isCapital ? "" : Join(words, start, lastName),
            Join(words, tailStart, words.Count));
    }

    /// <summary>"Garcia Lopez M.": two family names and no given name spelled out.</summary>
    private static bool IsTwoFamilies(List<NameWord> words, int start, int tailStart, int end) =>
        tailStart - start == 2
        && !NameLexicon.IsGiven(words[start].Text)
        && (end - tailStart > 1 || NameWord.IsCapitalRun(words[tailStart].Text)
            || (NameLexicon.IsSpanishFamily(words[start].Text) && NameLexicon.IsSpanishFamily(words[start + 1].Text)));

    private static int LeadingParticles(List<NameWord> words, int limit)
    {
        var count = 0;
        while (count < limit && words[count].Kind == WordKind.Particle)
        {
            count++;
        }

        return count;
    }

    private static bool IsName(NameWord word) => word.Kind == WordKind.Word;

    /// <summary>Takes titles out; says whether one was of a religious order.</summary>
    private static bool DropTitles(List<NameWord> words)
    {
        var isReligious = false;
        for (var i = words.Count - 1; i >= 0; i--)
        {
            if (words[i].Kind != WordKind.Title)
            {
                continue;
            }

            // "J. Father": a title that would be the only name is one, unless it is as short as Mr.
            var isLast = i == words.Count - 1 && words[i].Text[^1] != '.' && words[i].Text.Length > 4;
            if (isLast && !words.Exists(IsName))
            {
                words[i] = words[i] with { Kind = WordKind.Word };
                continue;
            }

            isReligious |= NameLexicon.IsReligiousTitle(words[i].Text);
            words.RemoveAt(i);
        }

        return isReligious;
    }

    /// <summary>Takes the suffix from the end, or the capitals JR where a given name came before.</summary>
    private static string TakeSuffix(List<NameWord> words, bool isWholeName)
    {
        if (words.Count < 2)
        {
            return "";
        }

        var last = words[^1];
        var isCapitals = isWholeName && last.Text is "JR" or "SR"
            && words.Exists(IsName)
            && (words[0].Kind == WordKind.Initials || words.Count(IsName) > 1);
        if (last.Kind != WordKind.Suffix && !isCapitals)
        {
            // "Neto, A. J." elsewhere keeps its place; a suffix in the middle ("Torvald Jr. A.") is taken out.
            var middle = words.FindIndex(w => w.Kind == WordKind.Suffix);
            if (middle <= 0 || !isWholeName)
            {
                return "";
            }

            var inner = words[middle].Text;
            words.RemoveAt(middle);
            return inner;
        }

        words.RemoveAt(words.Count - 1);
        return last.Text;
    }

    /// <summary>Takes particles in small letters from either end.</summary>
    private static string TakeParticles(List<NameWord> words)
    {
        var leading = 0;
        while (leading < words.Count - 1 && words[leading].Kind == WordKind.Particle)
        {
            leading++;
        }

        var text = Join(words, 0, leading);
        words.RemoveRange(0, leading);
        var trailing = words.Count;
        while (trailing > 1 && words[trailing - 1].Kind is WordKind.Particle or WordKind.CapitalParticle)
        {
            trailing--;
        }

        if (trailing == words.Count)
        {
            return text;
        }

        var end = Join(words, trailing, words.Count);
        words.RemoveRange(trailing, words.Count - trailing);
        return text.Length == 0 ? end : $"{text} {end}";
    }
}
