namespace Accession.Core.People;

/// <summary>Parts of a piece between commas, and what their form says about them.</summary>
internal static class NameParts
{
    /// <summary>Takes a piece apart at its commas. Parts that begin with a digit (years of life) fall away.</summary>
    public static List<List<NameWord>> Of(ReadOnlySpan<char> piece)
    {
        var parts = new List<List<NameWord>>(2);
        var isAllCapitals = IsAllCapitals(piece);
        while (piece.Length > 0)
        {
            var comma = piece.IndexOfAny(",\uFF0C\u3001");
            var text = (comma < 0 ? piece : piece[..comma]).Trim();
            piece = comma < 0 ? default : piece[(comma + 1)..];
            if (text.IsEmpty || char.IsDigit(text[0]) || IsLifeDate(text))
            {
                continue;
            }

            var words = NameWord.Split(text, isAllCapitals);
            words.RemoveAll(w => HasDigit(w.Text));
            if (words.Count > 0)
            {
                parts.Add(words);
            }
        }

        return parts;
    }

    /// <summary>Whether the part is a suffix and nothing else.</summary>
    public static bool IsSuffix(List<NameWord> part) =>
        part.Count == 1 && (part[0].Kind == WordKind.Suffix || part[0].Text is "JR" or "SR" or "JR." or "SR.");

    /// <summary>Whether the first part is a family name to which the given names of the second belong.</summary>
    /// <param name="family">The part before the comma.</param>
    /// <param name="given">The part after it.</param>
    /// <param name="count">How many parts there are in all, suffixes not counted.</param>
    public static bool AreFamilyAndGiven(List<NameWord> family, List<NameWord> given, int count)
    {
        if (!CanBeFamily(family))
        {
            return false;
        }

        if (IsGivenOnly(given))
        {
            return true;
        }

        var names = family.Count(w => w.Kind == WordKind.Word);
        var initials = given.Count(w => w.Kind == WordKind.Initials);
        var isGivenKnown = given.Exists(w => w.Kind == WordKind.Word) && IsKnownGiven(given[0]);
        if (count > 2)
        {
            return isGivenKnown && (given.Count == 1 || !IsPlainWord(given[^1]) || given.TrueForAll(IsKnownGiven));
        }

        // Two parts: a list of two, or a name turned round. "Brill, R. N. Holm" are two persons.
        var isWholeName = initials >= 2 && given[0].Kind == WordKind.Initials
            && given.Count(IsPlainWord) == 1 && !IsKnownGiven(given[^1]);
        return names == 1 ? !isWholeName : IsPairWithGiven(family, given, isGivenKnown);
    }

    /// <summary>The part as a family name: "LEE" before a comma is no row of initials.</summary>
    public static List<NameWord> AsFamily(List<NameWord> part)
    {
        if (part.Count == 1)
        {
            part[0] = part[0] with { Kind = WordKind.Word };
        }

        for (var i = 0; i < part.Count - 1; i++)
        {
            if (part[i].Kind == WordKind.Initials && part[i].Text.Length > 1 && NameWord.IsCapitalRun(part[i].Text))
            {
                part[i] = part[i] with { Kind = WordKind.Word };
            }
        }

        return part;
    }

    /// <summary>
    /// Several persons without a sign between them: "D. Garnet G.A. Spindler F.M. Polder". Only where initials begin
    /// each of them, so that nothing is torn apart on a guess.
    /// </summary>
    public static IEnumerable<List<NameWord>> WithoutSigns(List<NameWord> words)
    {
        if (words.Count < 4 || words[^1].Kind != WordKind.Word)
        {
            return [words];
        }

        var names = new List<List<NameWord>>();
        var start = 0;
        for (var i = 1; i < words.Count; i++)
        {
            var isInitial = words[i].Kind == WordKind.Initials;
            var followsFamily = words[i - 1].Kind == WordKind.Word && i - start >= 2
                && words.FindIndex(start, i - start, w => w.Kind == WordKind.Initials) is var found && found >= 0
                && found < i - 1;
            if (isInitial && followsFamily)
            {
                names.Add(words[start..i]);
                start = i;
            }
        }

        names.Add(words[start..]);
        return names;
    }

    /// <summary>
    /// Whether single words are a list of family names ("Torvald, Brill, Molen"), and not family and given names by
    /// turns ("Torvald, John, Brill, Mary").
    /// </summary>
    public static bool AreFamilies(List<List<NameWord>> parts)
    {
        if (parts.Count < 3 || !parts.TrueForAll(p => p.Count == 1 && p[0].Kind == WordKind.Word))
        {
            return false;
        }

        var isByTurns = parts.Count % 2 == 0;
        for (var i = 1; i < parts.Count && isByTurns; i += 2)
        {
            isByTurns = IsKnownGiven(parts[i][0]);
        }

        return !isByTurns;
    }

    private static bool CanBeFamily(List<NameWord> part)
    {
        if (part.Count == 1)
        {
            return part[0].Kind is WordKind.Word or WordKind.Abbreviation or WordKind.Title
                || (part[0].Kind == WordKind.Initials && part[0].Text.Length > 1 && !part[0].Text.Contains('.'));
        }

        var firstName = part.FindIndex(w => w.Kind == WordKind.Word);
        if (firstName < 0)
        {
            return part[0].Kind is WordKind.CapitalParticle or WordKind.Particle;
        }

        // Initials before the family name: the name is whole already. After it: a second family name, "Ferrero E.".
        var firstInitials = part.FindIndex(w => w.Kind is WordKind.Initials);
        return (firstInitials < 0 || (firstInitials > firstName && firstInitials == part.Count - 1
                && part[firstInitials].Text.TrimEnd('.').Length == 1))
            && !part.Exists(w => w.Kind == WordKind.Title)
            && part.Count(w => w.Kind == WordKind.Word) <= 3;
    }

    private static bool IsGivenOnly(List<NameWord> part) =>
        part[0].Kind is WordKind.Initials or WordKind.Abbreviation or WordKind.Title or WordKind.Particle
        && part.TrueForAll(w => w.Kind is not (WordKind.Word or WordKind.CapitalParticle) || IsKnownGiven(w))
        && (!part.Exists(IsPlainWord) || part[0].Kind != WordKind.Particle);

    /// <summary>Two words before the comma: "Ferrero Vey, L. M." turned round, "Mary Holm, John Brill" two.</summary>
    private static bool IsPairWithGiven(List<NameWord> family, List<NameWord> given, bool isGivenKnown)
    {
        var isSecondInitial = family[^1].Kind is WordKind.Initials or WordKind.Abbreviation;
        if (isSecondInitial)
        {
            return isGivenKnown || given.Count == 1;
        }

        var hasParticle = family[0].Kind is WordKind.Particle or WordKind.CapitalParticle
            || NameLexicon.BeginsFamily(family[0].Text) || family[^1].Kind == WordKind.Suffix;
        var isFirstGiven = family[0].Kind == WordKind.Word && IsKnownGiven(family[0])
            && !NameLexicon.IsSpanishFamily(family[0].Text);
        return hasParticle
            || (!isFirstGiven && (given.Count == 1 || isGivenKnown && NameLexicon.IsSpanishFamily(family[0].Text)));
    }

    private static bool IsKnownGiven(NameWord word) =>
        word.Kind != WordKind.Word || NameLexicon.IsGiven(word.Text);

    private static bool IsPlainWord(NameWord word) => word.Kind == WordKind.Word;

    private static bool IsAllCapitals(ReadOnlySpan<char> text)
    {
        var small = 0;
        var run = 0;
        foreach (var c in text)
        {
            run = char.IsLetter(c) ? run + 1 : 0;
            if (char.IsLower(c) && run > 1)
            {
                small++;
            }
        }

        return small == 0;
    }

    /// <summary>"b. 1872", "d.1925", "fl. 1890".</summary>
    private static bool IsLifeDate(ReadOnlySpan<char> text) =>
        text.Length > 3 && char.IsDigit(text[^1])
        && (text.StartsWith("b.", StringComparison.Ordinal) || text.StartsWith("d.", StringComparison.Ordinal)
            || text.StartsWith("fl.", StringComparison.Ordinal) || text.StartsWith("ca.", StringComparison.Ordinal));

    private static bool HasDigit(string text) => text.AsSpan().IndexOfAnyInRange('0', '9') >= 0;
}
