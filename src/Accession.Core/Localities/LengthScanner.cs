namespace Accession.Core.Localities;

/// <summary>
/// Takes a written height or distance apart: one number or two with a range between them, and their units. Used by
/// <see cref="Elevation"/> and <see cref="UncertaintyRadius"/>, which say what the numbers may be.
/// </summary>
internal ref struct LengthScanner(ReadOnlySpan<char> text)
{
    private const int MostDigits = 12;

    private readonly ReadOnlySpan<char> _text = text;
    private int _at;
    private bool _isRange;
    private bool _isNegative;

    /// <summary>How many numbers there are, 0 to 2.</summary>
    public int Count { get; private set; }

    public decimal First { get; private set; }

    public decimal Second { get; private set; }

    public int FirstColumn { get; private set; }

    public int SecondColumn { get; private set; }

    /// <summary>The unit written behind the first number; null when there is none.</summary>
    public LengthUnit? FirstUnit { get; private set; }

    /// <summary>The unit written behind the second number; null when there is none.</summary>
    public LengthUnit? SecondUnit { get; private set; }

    public bool IsApproximate { get; private set; }

    public int StoppedAt { get; private set; }

    public string? StoppedBecause { get; private set; }

    public void Scan()
    {
        while (_at < _text.Length && StoppedAt == 0)
        {
            var c = _text[_at];
            if (char.IsAsciiDigit(c))
            {
                ScanNumber();
            }
            else if (char.IsLetter(c))
            {
                ScanWord();
            }
            else
            {
                ScanMark(c);
            }
        }

        if (StoppedAt == 0 && Count == 0)
        {
            Stop(_text.Length + 1, "There is no number.");
        }
    }

    private void ScanNumber()
    {
        var start = _at;
        var value = 0m;
        var scale = 1m;
        var digits = 0;
        var hasPoint = false;
        for (; _at < _text.Length; _at++)
        {
            var c = _text[_at];
            if (char.IsAsciiDigit(c))
            {
                if (++digits > MostDigits)
                {
                    Stop(start + 1, "The number is too long.");
                    return;
                }

                value = (value * 10) + (c - '0');
                scale *= hasPoint ? 10 : 1;
                continue;
            }

            var following = DigitsAfter(_at);
            if (hasPoint || following == 0)
            {
                break;
            }

            // A group of three after a comma or a space is thousands; after a point nobody can know.
            if (following == 3 && c is ',' or ' ' or '\u00A0' or '\u202F' && digits <= 3)
            {
                continue;
            }

            if (following == 3 && c == '.' && digits <= 3 && value > 0)
            {
                Stop(_at + 1, "The point can stand before thousands or before decimals; write the number without it.");
                return;
            }

            if (c is not ('.' or ','))
            {
                break;
            }

            hasPoint = true;
        }

        AddNumber(start + 1, value / scale);
    }

    private readonly int DigitsAfter(int at)
    {
        var end = at + 1;
        while (end < _text.Length && char.IsAsciiDigit(_text[end]))
        {
            end++;
        }

        return end - at - 1;
    }

    private void AddNumber(int column, decimal value)
    {
        var signed = _isNegative ? -value : value;
        _isNegative = false;
        if (Count == 0)
        {
            (First, FirstColumn, Count) = (signed, column, 1);
        }
        else if (Count == 1 && _isRange)
        {
            (Second, SecondColumn, Count) = (signed, column, 2);
        }
        else
        {
            Stop(column, "There is a number too many.");
        }
    }

    private void ScanWord()
    {
        var start = _at;
        while (_at < _text.Length && char.IsLetter(_text[_at]))
        {
            _at++;
        }

        Span<char> buffer = stackalloc char[16];
        var word = _text[start.._at];
        var length = word.ToLowerInvariant(buffer);
        if (length < 0)
        {
            Stop(start + 1, "This word is not part of a height or distance.");
            return;
        }

        ReadOnlySpan<char> small = buffer[..length];
        var currentUnit = Count == 2 ? SecondUnit : FirstUnit;
        if (Count > 0 && currentUnit is null && UnitOf(small) is { } unit)
        {
            SetUnit(unit);
        }
        else if (Count == 1 && (small is "to" or "bis" or "through" || (small is "a" && FollowedBySpace())))
        {
            _isRange = true;
        }
        else if (small is "ca" or "c" or "circa" or "about" or "approx" or "approximately" or "around")
        {
            IsApproximate = true;
        }
        else if (!IsFiller(small))
        {
            Stop(start + 1, $"\"{word}\" is not part of a height or distance.");
        }
    }

    private readonly bool FollowedBySpace() => _at < _text.Length && _text[_at] == ' ';

    private void SetUnit(LengthUnit unit)
    {
        if (Count == 2)
        {
            SecondUnit = unit;
        }
        else
        {
            FirstUnit = unit;
        }
    }

    /// <summary>
    /// Words that name the thing or the level from which it is counted: altitude, above sea level, s.n.m.
    /// </summary>
    private readonly bool IsFiller(ReadOnlySpan<char> word) => Count == 0
        ? word is "alt" or "altitude" or "altitud" or "altura" or "altitudine" or "elev" or "elevation" or "elevación"
            or "elevacion" or "el" or "höhe" or "radius" or "within"
        : word is "asl" or "amsl" or "snm" or "above" or "mean" or "sea" or "level" or "over" or "sobre" or "nivel"
            or "del" or "mar" or "a" or "s" or "l" or "n" or "m" or "ü" or "nn" or "nhn" or "alt" or "elev"
            or "elevation";

    private static LengthUnit? UnitOf(ReadOnlySpan<char> word) => word switch
    {
        "m" or "mt" or "mts" or "mtr" or "mtrs" or "meter" or "meters" or "metre" or "metres" or "metro" or "metros"
            or "mètre" or "mètres" or "metri" or "msnm" or "masl" or "msm" => LengthUnit.Metre,
        "ft" or "feet" or "foot" or "pie" or "pies" or "pied" or "pieds" or "fuß" or "fuss"
            or "piedi" => LengthUnit.Foot,
        "km" or "kms" or "kilometer" or "kilometers" or "kilometre" or "kilometres" => LengthUnit.Kilometre,
        "mi" or "mile" or "miles" => LengthUnit.Mile,
        _ => null,
    };

    private void ScanMark(char c)
    {
        var column = ++_at;
        switch (c)
        {
            case '\'' or '′' or '’' when Count > 0: SetUnit(LengthUnit.Foot); break;
            case '-' or '–' or '—' or '−' or '‐' or '‑' when Count == 0: _isNegative = true; break;
            case '-' or '–' or '—' or '−' or '‐' or '‑' when Count == 1 && !_isRange: _isRange = true; break;
            case '±' or '~' when Count == 0: IsApproximate |= c == '~'; break;
            case '+' when Count == 0 && _text[_at..].StartsWith("/-") || Count == 0 && _text[_at..].StartsWith("/−"):
                _at += 2;
                break;
            case '.' or ':' or ',' or ';' or '(' or ')' or '[' or ']': break;
            case var space when char.IsWhiteSpace(space): break;
            default: Stop(column, $"The sign \"{c}\" does not belong in a height or distance."); break;
        }
    }

    private void Stop(int column, string reason)
    {
        if (StoppedAt == 0)
        {
            StoppedAt = column;
            StoppedBecause = reason;
        }
    }

    /// <summary>How many metres one of the unit has; exact by definition.</summary>
    public static decimal MetresPer(LengthUnit unit) => unit switch
    {
        LengthUnit.Metre => 1m,
        LengthUnit.Foot => 0.3048m,
        LengthUnit.Kilometre => 1000m,
        LengthUnit.Mile => 1609.344m,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "There is no such unit."),
    };
}
