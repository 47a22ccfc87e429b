using System.Globalization;

namespace Accession.Core.Localities;

/// <summary>What stands at one place of a written coordinate.</summary>
internal enum CoordinateMark
{
    Number,
    Degree,
    Minute,
    Second,
    Minus,
    Plus,
    North,
    South,
    East,
    West,
    Latitude,
    Longitude,
    Separator,
}

/// <summary>One place of a written coordinate.</summary>
/// <param name="Mark">What it is.</param>
/// <param name="Value">The number; 0 for anything else.</param>
/// <param name="Decimals">How many decimals the number was written with.</param>
/// <param name="Column">Where it begins in the text, from 1.</param>
internal readonly record struct CoordinateToken(CoordinateMark Mark, decimal Value, int Decimals, int Column)
{
    public bool IsHemisphere => Mark is >= CoordinateMark.North and <= CoordinateMark.West;

    public bool IsSign => Mark is CoordinateMark.Minus or CoordinateMark.Plus;

    public bool IsLabel => Mark is CoordinateMark.Latitude or CoordinateMark.Longitude;
}

/// <summary>Takes a written coordinate apart in one pass and without allocating.</summary>
internal ref struct CoordinateScanner(ReadOnlySpan<char> text, Span<CoordinateToken> tokens, int columnsBefore = 0)
{
    /// <summary>More places than the longest sensible pair has.</summary>
    public const int MostTokens = 24;

    // As many as a 64-bit number holds; further ones say nothing about a place on Earth.
    private const int MostDigits = 18;

    private readonly ReadOnlySpan<char> _text = text;
    private readonly Span<CoordinateToken> _tokens = tokens;
    private int _at;
    private bool _unitsAreLetters;

    public int Count { get; private set; }

    public readonly ReadOnlySpan<CoordinateToken> Tokens => _tokens[..Count];

    /// <summary>The column at which scanning stopped; 0 when it reached the end.</summary>
    public int StoppedAt { get; private set; }

    public string? StoppedBecause { get; private set; }

    public bool IsApproximate { get; private set; }

    public void Scan()
    {
        while (_at < _text.Length && StoppedAt == 0)
        {
            var c = _text[_at];
            if (char.IsAsciiDigit(c) || (c == '.' && _at + 1 < _text.Length && char.IsAsciiDigit(_text[_at + 1])))
            {
                ScanNumber();
            }
            else if (char.IsLetter(c) && c != 'º')
            {
                ScanLetters();
            }
            else
            {
                ScanMark(c);
            }
        }
    }

    private void ScanNumber()
    {
        var start = _at;
        var mantissa = 0UL;
        var (digits, decimals) = (0, 0);
        var point = '\0';
        for (; _at < _text.Length; _at++)
        {
            var c = _text[_at];
            if (char.IsAsciiDigit(c))
            {
                mantissa = digits < MostDigits ? (mantissa * 10) + (ulong)(c - '0') : mantissa;
                decimals += point != '\0' && digits < MostDigits ? 1 : 0;
                digits++;
                continue;
            }

            var beforeDigit = _at + 1 < _text.Length && char.IsAsciiDigit(_text[_at + 1]);
            if (c == ',' && point == ',' && beforeDigit)
            {
                Stop(_at + 1,
                    "Commas serve both as decimal sign and between the numbers; put a semicolon between them.");
                return;
            }

            if (point != '\0' || !beforeDigit || c is not ('.' or ','))
            {
                break;
            }

            point = c;
        }

        Add(CoordinateMark.Number, start, Scaled(mantissa, decimals), decimals);
    }

    private static decimal Scaled(ulong mantissa, int decimals) => new(
        unchecked((int)mantissa), unchecked((int)(mantissa >> 32)), 0, false, (byte)decimals);

    private void ScanLetters()
    {
        var start = _at;
        if (Count > 0 && start > 0 && char.IsAsciiDigit(_text[start - 1]) && ScanUnitLetter(_text[start]))
        {
            return;
        }

        while (_at < _text.Length && char.IsLetter(_text[_at]) && _text[_at] != 'º')
        {
            _at++;
        }

        var word = _text[start.._at];
        if (word.Length > 12 || !AddWord(word, start))
        {
            var isWest = word is "O" or "o";
            Stop(start + 1, isWest
                ? "O can be west (oeste, ouest, ovest) or east (Ost); write W or E."
                : $"\"{Short(word)}\" is not part of a coordinate.");
        }
    }

    /// <summary>Takes the d, m and s of 43d35m11.1s for units. A small s is a second only after a small m.</summary>
    private bool ScanUnitLetter(char c)
    {
        var next = _at + 1 < _text.Length ? _text[_at + 1] : ' ';
        var standsAlone = !char.IsLetter(next) || next is 'N' or 'S' or 'E' or 'W';
        CoordinateMark? unit = c switch
        {
            'd' => CoordinateMark.Degree,
            'm' => CoordinateMark.Minute,
            's' when _unitsAreLetters => CoordinateMark.Second,
            _ => null,
        };
        if (unit is not { } mark || !standsAlone)
        {
            return false;
        }

        _unitsAreLetters = mark == CoordinateMark.Minute;
        Add(mark, _at);
        _at++;
        return true;
    }

    private bool AddWord(ReadOnlySpan<char> word, int start)
    {
        Span<char> lower = stackalloc char[12];
        var length = word.ToLowerInvariant(lower);
        ReadOnlySpan<char> small = lower[..length];
        CoordinateMark? mark = small switch
        {
            "n" or "north" or "norte" or "nord" or "norden" => CoordinateMark.North,
            "s" or "south" or "sur" or "sul" or "sud" or "süd" => CoordinateMark.South,
            "e" or "east" or "este" or "est" or "leste" or "ost" => CoordinateMark.East,
            "w" or "west" or "oeste" or "ouest" or "ovest" => CoordinateMark.West,
            "lat" or "latitude" or "latitud" => CoordinateMark.Latitude,
            "lon" or "long" or "lng" or "longitude" or "longitud" => CoordinateMark.Longitude,
            "deg" or "degree" or "degrees" or "grados" => CoordinateMark.Degree,
            "min" or "minute" or "minutes" or "minutos" => CoordinateMark.Minute,
            "sec" or "seconds" or "seg" or "segundos" => CoordinateMark.Second,
            _ => null,
        };
        if (mark is { } known)
        {
            Add(known, start);
            return true;
        }

        var isAbout = small is "ca" or "c" or "circa" or "about" or "approx";
        IsApproximate |= isAbout;
        return isAbout;
    }

    private void ScanMark(char c)
    {
        var start = _at++;
        switch (c)
        {
            case '°' or 'º' or '˚': Add(CoordinateMark.Degree, start); break;
            case '\'' or '′' or '’' or '‘' or 'ʹ' or '´' or '`' or 'ʼ': AddPrime(start); break;
            case '"' or '″' or '”' or '“' or 'ʺ' or '¨': Add(CoordinateMark.Second, start); break;
            case '-' or '−' or '–' or '‐' or '‑': Add(CoordinateMark.Minus, start); break;
            case '+': Add(CoordinateMark.Plus, start); break;
            case ',' or ';' or '/' or '|': Add(CoordinateMark.Separator, start); break;
            case '~': IsApproximate = true; break;
            case '.' or ':' or '(' or ')' or '[' or ']': break;
            case var space when char.IsWhiteSpace(space)
                || CharUnicodeInfo.GetUnicodeCategory(space) is UnicodeCategory.Format:
                break;
            default: Stop(start + 1, $"The sign \"{c}\" does not belong in a coordinate."); break;
        }
    }

    /// <summary>One prime is a minute; two of them are a second.</summary>
    private void AddPrime(int start)
    {
        if (Count > 0 && _tokens[Count - 1] is { Mark: CoordinateMark.Minute } last
            && last.Column == start + columnsBefore && Count > 1)
        {
            _tokens[Count - 1] = last with { Mark = CoordinateMark.Second };
            return;
        }

        Add(CoordinateMark.Minute, start);
    }

    private void Add(CoordinateMark mark, int start, decimal value = 0, int decimals = 0)
    {
        if (Count == _tokens.Length)
        {
            Stop(start + 1, "The text goes on after what could be coordinates.");
            return;
        }

        _tokens[Count++] = new(mark, value, decimals, start + 1 + columnsBefore);
    }

    private void Stop(int column, string reason)
    {
        if (StoppedAt == 0)
        {
            StoppedAt = column + columnsBefore;
            StoppedBecause = reason;
        }
    }

    private static ReadOnlySpan<char> Short(ReadOnlySpan<char> word) => word.Length > 20 ? word[..20] : word;
}
