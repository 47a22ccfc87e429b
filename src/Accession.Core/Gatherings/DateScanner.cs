using System.Globalization;

namespace Accession.Core.Gatherings;

/// <summary>One place of a written date: a number, a month, or a separator between two of them.</summary>
/// <param name="Shape">The letter that stands for it in the shape: see <see cref="DateShapes"/>.</param>
/// <param name="Value">The number or the month; 0 where XX or 00 says that it is not known.</param>
/// <param name="Digits">How many digits the number was written with; 0 for a month and for XX.</param>
/// <param name="Column">Where it begins in the text, from 1.</param>
internal readonly record struct DateToken(char Shape, int Value, int Digits, int Column);

/// <summary>
/// Draws the shape of a written date in one pass and without allocating: it takes the text apart into places and sets
/// aside what does not change the date (weekday, ordinal endings, time of day) or only casts doubt on it.
/// </summary>
internal ref struct DateScanner(ReadOnlySpan<char> text, Span<DateToken> tokens)
{
    private const char Muddled = '!';

    private readonly ReadOnlySpan<char> _text = text;
    private readonly Span<DateToken> _tokens = tokens;
    private int _at;
    private char _separator;
    private int _separatorColumn;
    private bool _apostrophe;

    public int Count { get; private set; }

    public readonly Span<DateToken> Tokens => _tokens[..Count];

    /// <summary>The column at which scanning stopped; 0 when it reached the end.</summary>
    public int StoppedAt { get; private set; }

    public string? StoppedBecause { get; private set; }

    public bool HasSeason { get; private set; }

    public bool HasPart { get; private set; }

    public bool IsApproximate { get; private set; }

    public bool IsBracketed { get; private set; }

    public bool IsDecade { get; private set; }

    public bool SaysNoDate { get; private set; }

    /// <summary>The column of an "and" between two days; 0 when there is none.</summary>
    public int AndColumn { get; private set; }

    /// <summary>The weekday as in <see cref="DayOfWeek"/>; null when none is written.</summary>
    public int? Weekday { get; private set; }

    public void Scan()
    {
        while (_at < _text.Length && StoppedAt == 0)
        {
            var c = _text[_at];
            if (char.IsAsciiDigit(c))
            {
                ScanNumber();
            }
            else if (IsWordCharacter(c))
            {
                ScanWord();
            }
            else
            {
                ScanMark(c);
            }
        }

        if (StoppedAt == 0 && _separator is '-' or '/' or Muddled)
        {
            Stop(_separatorColumn, "After this sign something is missing.");
        }
    }

    private static bool IsWordCharacter(char c) =>
        char.IsLetter(c) || CharUnicodeInfo.GetUnicodeCategory(c) is UnicodeCategory.NonSpacingMark;

    private void ScanNumber()
    {
        var start = _at;
        while (_at < _text.Length && char.IsAsciiDigit(_text[_at]))
        {
            _at++;
        }

        var digits = _at - start;
        if (digits <= 2 && Count > 0 && IsTimeAt(start))
        {
            SkipTime(start);
            return;
        }

        var value = digits <= 8 ? int.Parse(_text[start.._at], NumberStyles.None, CultureInfo.InvariantCulture) : 0;
        var isYear = digits == 4 || (digits == 2 && _apostrophe);
        _apostrophe = false;
        if (digits == 8 && Count == 0 && value / 100 % 100 is >= 1 and <= 12)
        {
            Add(new('Y', value / 10000, 4, start + 1));
            Add(new('-', 0, 0, start + 1));
            Add(new('N', value / 100 % 100, 2, start + 5));
            Add(new('-', 0, 0, start + 1));
            Add(new('N', value % 100, 2, start + 7));
            return;
        }

        Place(new(isYear ? 'Y' : digits <= 2 ? 'N' : 'L', value, digits, start + 1));
    }

    private void ScanWord()
    {
        var start = _at;
        while (_at < _text.Length && IsWordCharacter(_text[_at]))
        {
            _at++;
        }

        var word = _text[start.._at];
        if (word is "T" or "t" && Count > 0 && _at < _text.Length && char.IsAsciiDigit(_text[_at])
            && char.IsAsciiDigit(_text[start - 1]))
        {
            SkipTime(_at);
            return;
        }

        _apostrophe = false;
        switch (DateWords.Find(word, out var value))
        {
            case DateWordKind.Month: Place(new('M', value, 0, start + 1)); break;
            case DateWordKind.Placeholder: Place(new('N', 0, 0, start + 1)); break;
            case DateWordKind.Season: HasSeason = true; break;
            case DateWordKind.Part: HasPart = true; break;
            case DateWordKind.Circa: IsApproximate = true; break;
            case DateWordKind.Weekday: Weekday = value; break;
            case DateWordKind.NoDate: SaysNoDate = true; break;
            case DateWordKind.Until: Separate('-', start + 1); break;
            case DateWordKind.And: Join(start + 1); break;
            case DateWordKind.Filler: break;
            case DateWordKind.Decade when Count > 0 && _tokens[Count - 1].Shape == 'Y': IsDecade = true; break;
            default: Stop(start + 1, $"The word \"{word}\" is not part of a date."); break;
        }
    }

    private void ScanMark(char c)
    {
        var column = ++_at;
        switch (c)
        {
            case '-' or '–' or '—' or '−' or '‐' or '‑': Separate('-', column); break;
            case '/': Separate('/', column); break;
            case '.' or ':': Separate('.', column); break;
            case ',' or ';': Separate(',', column); break;
            case '&' or '+': Join(column); break;
            case '\'' or '’' or '‘' or 'ʼ' or '`': _apostrophe = true; break;
            case '[' or ']' or '(' or ')': IsBracketed = true; break;
            case '~': IsApproximate = true; break;
            case '?' when _at < _text.Length && _text[_at] == '?':
                _at++;
                Place(new('N', 0, 0, column));
                break;
            case '?': IsApproximate = true; break;
            case var space when char.IsWhiteSpace(space): break;
            default: Stop(column, $"The sign \"{c}\" does not belong in a date."); break;
        }
    }

    private void Join(int column)
    {
        AndColumn = column;
        Separate('-', column);
    }

    private void Separate(char separator, int column)
    {
        var mayReplace = _separator is '\0' or '.' or ',';
        if (mayReplace)
        {
            _separator = separator;
            _separatorColumn = column;
        }
        else if (separator is '-' or '/')
        {
            _separator = Muddled;   // 1947--23: something is missing between the two
            _separatorColumn = column;
        }
    }

    /// <summary>Adds a number or month, and before it the separator if that says more than a space would.</summary>
    private void Place(DateToken token)
    {
        var before = Count > 0 ? _tokens[Count - 1].Shape : '\0';
        var tells = _separator switch
        {
            '\0' => false,
            Muddled => true,
            _ when before == '\0' => _separator is '-' or '/',
            _ when before == 'M' || token.Shape == 'M' => _separator == ',' && before == 'Y' && Count > 2,
            ',' => token.Shape == 'N',
            _ => true,
        };
        if (tells)
        {
            Add(new(_separator, 0, 0, _separatorColumn));
        }

        _separator = '\0';
        Add(token);
    }

    private void Add(DateToken token)
    {
        if (Count == _tokens.Length)
        {
            Stop(token.Column, "The text goes on after what could be a date.");
            return;
        }

        _tokens[Count++] = token;
    }

    private void Stop(int column, string reason)
    {
        if (StoppedAt == 0)
        {
            StoppedAt = column;
            StoppedBecause = reason;
        }
    }

    /// <summary>Whether a time of day stands here: one or two digits, a colon and two more digits.</summary>
    private readonly bool IsTimeAt(int start)
    {
        var colon = _at;
        return colon + 2 < _text.Length && _text[colon] == ':' && start > 0 && !char.IsAsciiLetter(_text[start - 1])
            && char.IsAsciiDigit(_text[colon + 1]) && char.IsAsciiDigit(_text[colon + 2]);
    }

    /// <summary>
    /// Passes over a time of day and its offset. The date is the collector's: 23:30-07:00 does not move it to the next
    /// day in UTC.
    /// </summary>
    private void SkipTime(int start)
    {
        _at = start;
        while (_at < _text.Length && (char.IsAsciiDigit(_text[_at]) || _text[_at] is ':' or '.' or ','))
        {
            _at++;
        }

        if (_at < _text.Length && _text[_at] is 'Z' or 'z')
        {
            _at++;
        }
        else if (_at < _text.Length && _text[_at] is '+' or '-' or '−')
        {
            _at += OffsetLength(_text[(_at + 1)..]);
        }

        _separator = '\0';
    }

    private static int OffsetLength(ReadOnlySpan<char> afterSign)
    {
        var length = 0;
        while (length < afterSign.Length && (char.IsAsciiDigit(afterSign[length]) || afterSign[length] == ':'))
        {
            length++;
        }

        var endsWell = length == afterSign.Length || afterSign[length] is '/' or ' ';
        return length is 2 or 4 or 5 && endsWell ? length + 1 : 0;
    }
}
