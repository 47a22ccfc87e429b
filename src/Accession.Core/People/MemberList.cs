using Accession.Core.Texts;

namespace Accession.Core.People;

/// <summary>
/// The persons of a text in their order. Takes pieces that no sign divides further, and solves the two puzzles of
/// lists: commas that divide persons or turn a name round, and family names that two persons share.
/// </summary>
internal sealed class MemberList
{
    private readonly List<List<NameWord>> _waiting = [];
    private bool _isLastInverted;

    /// <summary>The persons so far, each once.</summary>
    public List<PersonName> Persons { get; } = [];

    /// <summary>Begins after a sign that divides for certain: nothing is shared across it.</summary>
    public void BeginSegment()
    {
        Flush();
        _isLastInverted = false;
    }

    /// <summary>Adds the persons of a piece.</summary>
    /// <param name="piece">A text between joining words; it may hold commas.</param>
    /// <returns>A collector's number that stood at its end; empty when there was none.</returns>
    public string Add(ReadOnlySpan<char> piece)
    {
        var number = TrailingNumber.Cut(ref piece);
        var parts = NameParts.Of(piece);
        if (parts.Count == 0)
        {
            return number;
        }

        if (parts.Count == 1)
        {
            AddAlone(parts[0]);
            return number;
        }

        Flush();
        AddParts(parts);
        return number;
    }

    /// <summary>A piece without commas: a person, several without signs between, or a given name that waits.</summary>
    private void AddAlone(List<NameWord> words)
    {
        if (words[^1].Text is "ditto" or "do." or "idem" && Persons.Count > 0 && words.Count > 1)
        {
            AddSharing(words[..^1], Persons[^1]);
            return;
        }

        if (words.Count == 1 && words[0].Text.Length <= 3 && NameWord.IsCapitalRun(words[0].Text)
            && !NameLexicon.IsEasternFamily(words[0].Text))
        {
            words[0] = words[0] with { Kind = WordKind.Initials };   // "ABR" alone: initials, whatever the vowels say
        }

        var isInitials = words.TrueForAll(w => w.Kind == WordKind.Initials);
        var isGiven = IsLoneGiven(words);
        if ((isInitials || isGiven) && _isLastInverted && Persons.Count > 0)
        {
            AddSharing(words, Persons[^1]);
            return;
        }

        if (isInitials || isGiven)
        {
            _waiting.Add(words);
            return;
        }

        foreach (var name in NameParts.WithoutSigns(words))
        {
            var isSpelledOut = name.Count > 1 && name[0].Kind == WordKind.Word;
            AddWaiting(PersonNameReader.Direct(name), isSpelledOut);
        }
    }

    private static bool IsLoneGiven(List<NameWord> words) =>
        words.Count == 1 && words[0].Kind == WordKind.Word && NameLexicon.IsGiven(words[0].Text);

    /// <summary>Those who waited take the family name of the person they were joined to.</summary>
    private void AddWaiting(PersonName? person, bool isSpelledOut)
    {
        if (person is null)
        {
            return;
        }

        foreach (var words in _waiting)
        {
            var isInitials = words[0].Kind == WordKind.Initials;
            if (person.Given.Length > 0 && person.Family.Length > 0 && (isInitials || isSpelledOut))
            {
                AddSharing(words, person);
            }
            else
            {
                Keep(PersonNameReader.Direct(words));
            }
        }

        _waiting.Clear();
        Keep(person);
        _isLastInverted = false;
    }

    private void AddSharing(List<NameWord> given, PersonName person) =>
        Keep(person with { Given = PersonNameReader.Join(given, 0, given.Count), Suffix = "" });

    /// <summary>Adds those who still wait: nobody came to share a family name.</summary>
    public void Flush()
    {
        foreach (var words in _waiting)
        {
            Keep(PersonNameReader.Direct(words));
        }

        _waiting.Clear();
    }

    /// <summary>
    /// Parts between commas. A family name with the given names after the comma makes one person; a whole name, or a
    /// family name among family names, makes one alone; a suffix belongs to what came before.
    /// </summary>
    private void AddParts(List<List<NameWord>> parts)
    {
        var count = parts.Count(p => !NameParts.IsSuffix(p));
        var areFamilies = NameParts.AreFamilies(parts);
        for (var i = 0; i < parts.Count;)
        {
            var family = parts[i++];
            var suffix = "";
            if (i < parts.Count && NameParts.IsSuffix(parts[i]))
            {
                suffix = parts[i++][0].Text;
            }

            var given = i < parts.Count ? parts[i] : null;
            if (given is not null && !areFamilies && NameParts.AreFamilyAndGiven(family, given, count))
            {
                i++;
                if (i < parts.Count && NameParts.IsSuffix(parts[i]))
                {
                    suffix = parts[i++][0].Text;
                }

                Keep(PersonNameReader.Inverted(NameParts.AsFamily(family), given, suffix));
                _isLastInverted = true;
                continue;
            }

            if (i == parts.Count && !areFamilies && suffix.Length == 0 && IsLoneGiven(family))
            {
                _waiting.Add(family);   // "N. B. Bristow, John & Laura Gwent"
                return;
            }

            AddOne(family, suffix);
        }
    }

    private void AddOne(List<NameWord> words, string suffix)
    {
        foreach (var name in NameParts.WithoutSigns(words))
        {
            var person = PersonNameReader.Direct(name);
            Keep(person is not null && suffix.Length > 0 ? person with { Suffix = suffix } : person);
            _isLastInverted = false;
        }
    }

    /// <summary>Adds a person who is not listed yet; of two compatible spellings the fuller one stays.</summary>
    private void Keep(PersonName? person)
    {
        if (person is null || (person.Family.Length == 0 && person.Given.Length == 0))
        {
            return;
        }

        if (person.Family.EndsWith('.'))
        {
            if (IsAbbreviationOfEarlier(person))
            {
                return;
            }

            person = person with { Family = person.Family.TrimEnd('.') };
        }

        for (var i = 0; i < Persons.Count; i++)
        {
            if (IsListedAgain(Persons[i], person))
            {
                Persons[i] = Persons[i].Given.Count(char.IsLetter) >= person.Given.Count(char.IsLetter)
                    ? Persons[i]
                    : person;
                return;
            }
        }

        Persons.Add(person);
    }

    /// <summary>
    /// Whether a list names one person twice: equal names, or "T. Torvald; Thomas J. Torvald", where the shorter
    /// spelling can only be the longer. Two persons with initials that differ stay two.
    /// </summary>
    private static bool IsListedAgain(PersonName one, PersonName other)
    {
        if (one.FamilyKey != other.FamilyKey || one.SuffixKey != other.SuffixKey || !one.IsCompatibleWith(other))
        {
            return false;
        }

        return one.Given.Length > 0 == other.Given.Length > 0
            && (one.Initials == other.Initials
                || !NameWord.IsInitialsOnly(one.Given)
                || !NameWord.IsInitialsOnly(other.Given));
    }

    /// <summary>An author's abbreviation after the name it shortens: "Torvald; Torv."</summary>
    private bool IsAbbreviationOfEarlier(PersonName person)
    {
        var letters = Folding.Key(person.Family);
        return person.Given.Length == 0
            && letters.Length > 1
            && Persons.Exists(p => p.FamilyKey.Length > letters.Length
                && p.FamilyKey[0] == letters[0]
                && IsContainedInOrder(letters, p.FamilyKey));
    }

    private static bool IsContainedInOrder(string letters, string word)
    {
        var found = 0;
        foreach (var c in word)
        {
            found += found < letters.Length && c == letters[found] ? 1 : 0;
        }

        return found == letters.Length;
    }
}
