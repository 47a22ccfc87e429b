namespace Accession.Core.Gatherings;

/// <summary>
/// The places of one end of a written date, each with its column; a place that is missing has column 0.
/// </summary>
internal struct DateParts
{
    public DateToken Day;
    public DateToken Month;
    public DateToken Year;

    /// <summary>The first of two numbers of which one is the day.</summary>
    public DateToken First;

    /// <summary>The second of two numbers of which one is the day.</summary>
    public DateToken Second;

    public readonly bool IsAnything =>
        (Day.Column | Month.Column | Year.Column | First.Column | Second.Column) != 0;

    /// <summary>The column at which this end begins.</summary>
    public int FirstColumn;

    /// <summary>What the two numbers say about the order of day and month.</summary>
    public readonly DayMonthEvidence Evidence => (First.Value, Second.Value) switch
    {
        (0, _) or (_, 0) => DayMonthEvidence.None,
        ( > 12 and <= 31, <= 12) => DayMonthEvidence.ProvesDayFirst,
        ( <= 12, > 12 and <= 31) => DayMonthEvidence.ProvesMonthFirst,
        ( <= 12, <= 12) when First.Value != Second.Value => DayMonthEvidence.Either,
        _ => DayMonthEvidence.None,
    };

    /// <summary>What both ends of a range say together: a proof counts more, two contrary ones nothing.</summary>
    public static DayMonthEvidence Stronger(DayMonthEvidence one, DayMonthEvidence other) => (one, other) switch
    {
        (DayMonthEvidence.ProvesDayFirst, DayMonthEvidence.ProvesMonthFirst) => DayMonthEvidence.None,
        (DayMonthEvidence.ProvesMonthFirst, DayMonthEvidence.ProvesDayFirst) => DayMonthEvidence.None,
        _ => one > other ? one : other,
    };

    /// <summary>Collects the places whose meaning is one of five letters: day, month, year, first, second.</summary>
    public static DateParts From(string meaning, ReadOnlySpan<DateToken> tokens, ReadOnlySpan<char> letters)
    {
        var parts = default(DateParts);
        var token = 0;
        foreach (var letter in meaning)
        {
            // A meaning may leave out a separator, but never a number or a month.
            while (letter is not ('-' or '&') && !char.IsAsciiLetter(tokens[token].Shape))
            {
                token++;
            }

            if (letter is '-' or '&')
            {
                continue;
            }

            parts.Put(letters.IndexOf(letter), tokens[token++]);
        }

        return parts;
    }

    /// <summary>Says which of the two numbers is the day.</summary>
    public void Order(bool dayFirst)
    {
        if (First.Column != 0)
        {
            (Day, Month) = dayFirst ? (First, Second) : (Second, First);
        }
    }

    /// <summary>Fills what was written once for both ends of a range.</summary>
    public void TakeMissingFrom(in DateParts other)
    {
        if (Year.Column == 0)
        {
            Year = other.Year;
        }

        if (Month.Column == 0 && Day.Column != 0)
        {
            Month = other.Month;
        }
    }

    public readonly PartialDate ToPartialDate() => new(Year.Value, Month.Value, Day.Value);

    private void Put(int place, DateToken token)
    {
        switch (place)
        {
            case 0: Day = token; break;
            case 1: Month = token; break;
            case 2: Year = token; break;
            case 3: First = token; break;
            case 4: Second = token; break;
            default: return;
        }

        FirstColumn = FirstColumn == 0 ? token.Column : FirstColumn;
    }
}
