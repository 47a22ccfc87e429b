using System.Buffers;
using System.Text;
using Accession.Core.Outcomes;

namespace Accession.Core.People;

/// <summary>
/// Reads one text of collectors: divides it at the signs that divide persons for certain (semicolon, bar), then at the
/// weaker ones (&amp;, "with"), leaves groups whole, and hands what is left to <see cref="MemberList"/>.
/// </summary>
internal sealed class CollectorsReader(string verbatim)
{
    private static readonly SearchValues<char> SurelyDividing = SearchValues.Create(";|\n\r\u2022\uFF1B");
    private readonly MemberList _members = new();
    private readonly List<string> _groups = [];
    private string _number = "";
    private bool _etAl;
    private bool _isAnonymous;

    /// <summary>The reading of the whole text.</summary>
    public Reading<Collectors> Read()
    {
        var text = BracketText.WithoutOuter(verbatim.AsSpan().Trim());
        if (CollectorPhrases.MeansNobody(text))
        {
            return Reading<Collectors>.Of(verbatim, new Collectors([], false, IsAnonymous: true));
        }

        text = BracketText.WithoutInner(CollectorPhrases.WithoutLabel(text), out _number);
        if (CollectorPhrases.MeansNobody(text.Trim()))
        {
            return Reading<Collectors>.Of(verbatim, new Collectors([], false, IsAnonymous: true));
        }

        while (text.Length > 0)
        {
            var end = text.IndexOfAny(SurelyDividing);
            Segment(CollectorPhrases.WithoutLabel((end < 0 ? text : text[..end]).Trim()));
            text = end < 0 ? default : text[(end + 1)..];
        }

        return Result();
    }

    private Reading<Collectors> Result()
    {
        _members.Flush();
        var persons = _members.Persons;
        if (persons.Count == 0 && _groups.Count == 0 && !_etAl && !_isAnonymous)
        {
            return Reading<Collectors>.Stopped(verbatim, 1, $"There is no name of a collector in \"{verbatim}\".");
        }

        var collectors = new Collectors(
            persons,
            _etAl,
            _groups.Count switch { 0 => "", 1 => _groups[0], _ => string.Join("; ", _groups) },
            _number,
            persons.Count == 0 && _groups.Count == 0 && _isAnonymous);
        return Reading<Collectors>.Of(verbatim, collectors, Question(persons));
    }

    private static string? Question(List<PersonName> persons)
    {
        foreach (var person in persons)
        {
            if (person.Given is "JR" or "SR")
            {
                return $"{person.Given} after {person.Family} was read as initials; "
                    + $"is it the suffix {person.Given[0]}r.?";
            }

            if (person.Family.Length == 0 && person.Given.Length > 0 && NameWord.IsInitialsOnly(person.Given))
            {
                return $"Who is {person.Given}? Initials alone do not say.";
            }
        }

        return null;
    }

    private void Segment(ReadOnlySpan<char> segment)
    {
        if (segment.IsEmpty)
        {
            return;
        }

        _members.BeginSegment();
        if (IsGroupAsAWhole(segment))
        {
            _groups.Add(segment.ToString());
            return;
        }

        var text = WithSpacedSigns(segment).AsSpan();
        var pieceStart = 0;
        for (var start = NextWord(text, 0); start < text.Length;)
        {
            var end = WordEnd(text, start);
            var next = NextWord(text, end);
            var word = text[start..end];
            if (CollectorPhrases.MeansAndOthers(word.TrimEnd(',')))
            {
                _etAl = true;
                Piece(text[pieceStart..start]);
                pieceStart = end;
            }
            else if (IsJoin(text, pieceStart, start, end, next))
            {
                Piece(text[pieceStart..start]);
                pieceStart = end;
                if (TakeOthers(text, next, out var after))
                {
                    pieceStart = after;
                    next = NextWord(text, after);
                }
            }
            else if (IsEnd(word, start > NextWord(text, 0)))
            {
                Piece(text[pieceStart..start]);
                return;
            }

            start = next;
        }

        Piece(text[pieceStart..]);
    }

    private bool TakeOthers(ReadOnlySpan<char> text, int start, out int after)
    {
        // "et al.", "& al.", "& et al.": the joining word is gone; what follows may be joined once more.
        after = start;
        var end = WordEnd(text, start);
        if (end > start && text[start..end] is "et" or "et.")
        {
            start = NextWord(text, end);
            end = WordEnd(text, start);
        }

        if (end <= start || !CollectorPhrases.MeansOthers(text[start..end]))
        {
            return false;
        }

        _etAl = true;
        after = end;
        return true;
    }

    private static bool IsEnd(ReadOnlySpan<char> word, bool isInside)
    {
        if (word.Length > 12 || !CollectorPhrases.EndsCollector(word))
        {
            return false;
        }

        return isInside || word is "det." or "Det." or "herb." or "Herb." or "ex" or "comm." or "ded." or "misit";
    }

    /// <summary>Whether the word joins two persons here; "e" and "y" also stand inside one name.</summary>
    private static bool IsJoin(ReadOnlySpan<char> text, int pieceStart, int start, int end, int next)
    {
        var length = end - start;
        if (length > 11 || !CollectorPhrases.Joins(text[start..end]))
        {
            return text[start..end] is "et." && next < text.Length
                && CollectorPhrases.MeansOthers(text[next..WordEnd(text, next)]);
        }

        if (text[start..end] is not ("e" or "y" or "E" or "Y"))
        {
            // "en" and "ja" join only between names; at the very beginning nothing is joined.
            return true;
        }

        if (next < text.Length && CollectorPhrases.MeansOthers(text[next..WordEnd(text, next)]))
        {
            return true;
        }

        if (text[start] is 'E' or 'Y' && HasSmallLetter(text))
        {
            return false;   // an initial without a stop
        }

        var left = text[pieceStart..start];
        left = left[(left.LastIndexOf(',') + 1)..].Trim();
        var right = text[Math.Min(next, text.Length)..];
        var rightEnd = right.IndexOfAny(",&");
        right = (rightEnd < 0 ? right : right[..rightEnd]).Trim();
        var isOneName = left.IndexOfAny(" .") > 0 && right.IndexOfAny(" .") < 0;
        return !isOneName;
    }

    private static bool HasSmallLetter(ReadOnlySpan<char> text)
    {
        foreach (var c in text)
        {
            if (char.IsLower(c))
            {
                return true;
            }
        }

        return false;
    }

    private void Piece(ReadOnlySpan<char> piece)
    {
        piece = piece.TrimStart(" ,.:-–\t").TrimEnd(" ,:-–\t");
        if (piece.IsEmpty)
        {
            return;
        }

        if (CollectorPhrases.MeansNobody(piece))
        {
            _isAnonymous = true;
            return;
        }

        if (piece is "al." or "al" or "others" or "otros" or "outros")
        {
            _etAl = true;
            return;
        }

        if (IsGroup(piece))
        {
            _groups.Add(piece.ToString());
            return;
        }

        var number = _members.Add(piece);
        if (_number.Length == 0)
        {
            _number = number;
        }
    }

    /// <summary>"Fish &amp; Wildlife Service" is one group; "A. Brill &amp; class" is a person and a group.</summary>
    private static bool IsGroupAsAWhole(ReadOnlySpan<char> segment) =>
        IsGroup(segment)
        && !HasInitials(segment)
        && (segment.Contains('&') || segment.Contains(" and ", StringComparison.Ordinal)
            || segment.Contains(" to ", StringComparison.Ordinal)
            || segment.Contains(" with ", StringComparison.Ordinal)
            || !segment.Contains(','));

    private static bool HasInitials(ReadOnlySpan<char> text)
    {
        for (var i = 0; i + 1 < text.Length; i++)
        {
            if (text[i + 1] == '.' && char.IsUpper(text[i]) && (i == 0 || !char.IsLetter(text[i - 1])))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsGroup(ReadOnlySpan<char> text)
    {
        var words = 0;
        var groupWords = 0;
        for (var start = NextWord(text, 0); start < text.Length; start = NextWord(text, WordEnd(text, start)))
        {
            var word = text[start..WordEnd(text, start)];
            words++;
            groupWords += CollectorPhrases.IsGroupWord(word.Trim(",.")) ? 1 : 0;
        }

        // "A. Garden" and "Garden, A." are persons who are called so.
        return groupWords > 0 && (words == 1 || words > 3 || groupWords > 1 || !HasInitials(text));
    }

    /// <summary>Signs that join persons stand alone afterwards: "Brill&amp;Molen" becomes two.</summary>
    private static string WithSpacedSigns(ReadOnlySpan<char> text)
    {
        if (text.IndexOfAny("&+/") < 0)
        {
            return text.ToString();
        }

        var spaced = new StringBuilder(text.Length + 8);
        for (var i = 0; i < text.Length; i++)
        {
            var isWith = text[i] == '/' && i > 0 && text[i - 1] is 'w' or 'c' && (i == 1 || text[i - 2] == ' ');
            var isNumber = text[i] == '/' && i > 0 && char.IsDigit(text[i - 1]);
            _ = text[i] switch
            {
                '/' when isWith => spaced.Append("/ "),
                '/' when isNumber => spaced.Append('/'),
                '&' or '+' or '/' => spaced.Append(" & "),
                var c => spaced.Append(c),
            };
        }

        return spaced.ToString();
    }

    private static int NextWord(ReadOnlySpan<char> text, int from)
    {
        while (from < text.Length && char.IsWhiteSpace(text[from]))
        {
            from++;
        }

        return from;
    }

    private static int WordEnd(ReadOnlySpan<char> text, int from)
    {
        while (from < text.Length && !char.IsWhiteSpace(text[from]))
        {
            from++;
        }

        return from;
    }
}
