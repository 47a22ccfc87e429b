using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>
/// Reads a written date: draws its shape, looks up what each place means, then checks that such a day exists.
/// </summary>
internal struct CollectingDateReader
{
    // The oldest plants that are still pressed in books were collected in the 1530s (from memory).
    private const int EarliestYear = 1500;
    private const int LatestYear = 2999;
    private const int MostTokens = DateShapes.Longest + 1;

    private readonly string _verbatim;
    private readonly DayMonthOrder _order;
    private readonly DateOnly? _latest;
    private DateParts _start;
    private DateParts _end;
    private bool _isRange;
    private string? _question;

    private CollectingDateReader(string verbatim, DayMonthOrder order, DateOnly? latest)
    {
        _verbatim = verbatim;
        _order = order;
        _latest = latest;
    }

    /// <inheritdoc cref="CollectingDate.Read"/>
    public static Reading<CollectingDate> Read(string verbatim, DayMonthOrder order, DateOnly? latest)
    {
        var reader = new CollectingDateReader(verbatim, order, latest);
        // Nine lists in ten hold nothing but days in ISO 8601.
        if (verbatim.Length == 10 && CollectingDate.TryReadIso(verbatim, out var day) && day.Year >= EarliestYear)
        {
            return reader.Found(new(day, day));
        }

        var text = verbatim.AsSpan().Trim();
        if (text.IsEmpty)
        {
            return Stopped(verbatim, 1, "No date is written.");
        }

        return DateWords.SayNoDate(text)
            ? Stopped(verbatim, 1, "The label itself says that there is no date.")
            : reader.ReadShape();
    }

    /// <inheritdoc cref="CollectingDate.OrderEvidence"/>
    public static DayMonthEvidence OrderEvidence(string verbatim)
    {
        Span<DateToken> tokens = stackalloc DateToken[MostTokens];
        var scanner = new DateScanner(verbatim, tokens);
        scanner.Scan();
        if (scanner.StoppedAt != 0 || DateShapes.MeaningOf(scanner.Tokens) is not { } meaning)
        {
            return DayMonthEvidence.None;
        }

        var start = DateParts.From(meaning, scanner.Tokens, "dmypq");
        var end = DateParts.From(meaning, scanner.Tokens, "DMYPQ");
        return DateParts.Stronger(start.Evidence, end.Evidence);
    }

    private Reading<CollectingDate> ReadShape()
    {
        Span<DateToken> tokens = stackalloc DateToken[MostTokens];
        var scanner = new DateScanner(_verbatim, tokens);
        scanner.Scan();
        if (scanner.SaysNoDate)
        {
            return Stopped(_verbatim, 1, "The label itself says that there is no date.");
        }

        if (SerialDay(scanner.Tokens) is { } serial)
        {
            return serial;
        }

        if (scanner.StoppedAt != 0)
        {
            return Stopped(_verbatim, scanner.StoppedAt, scanner.StoppedBecause!);
        }

        if (DateShapes.MeaningOf(scanner.Tokens) is not { } meaning)
        {
            return NotUnderstood(scanner.Tokens);
        }

        _start = DateParts.From(meaning, scanner.Tokens, "dmypq");
        _end = DateParts.From(meaning, scanner.Tokens, "DMYPQ");
        _isRange = _end.IsAnything;
        if (_start.Year.Column == 0)
        {
            return Stopped(_verbatim, _verbatim.Length + 1, "There is no year; without one it is not a date.");
        }

        // The century of the beginning is settled before the end takes it over.
        var problem = SettleOrder() ?? SettleYearSpan(scanner, meaning) ?? CheckEnd(ref _start);
        if (problem is null && _isRange)
        {
            _end.TakeMissingFrom(_start);
            problem = CheckEnd(ref _end);
        }

        return problem is null
            ? Finish(scanner, meaning)
            : Stopped(_verbatim, problem.Column, problem.Reason);
    }

    /// <summary>Puts the two numbers of an all-numeric date into their places, or says that nobody can know.</summary>
    private Unreadable? SettleOrder()
    {
        if (_start.First.Column == 0)
        {
            return null;
        }

        var evidence = DateParts.Stronger(_start.Evidence, _end.Evidence);
        var dayFirst = evidence switch
        {
            DayMonthEvidence.ProvesDayFirst => true,
            DayMonthEvidence.ProvesMonthFirst => false,
            // With XX for the day, the number that is left is the month.
            _ when _start.First.Value == 0 || _start.Second.Value == 0 => _start.First.Value == 0,
            _ => _order != DayMonthOrder.MonthFirst,
        };
        if (evidence == DayMonthEvidence.Either && _order == DayMonthOrder.Unsettled)
        {
            return new(_start.First.Column, "Day or month first? Settle the order for this list: "
                + $"the date is {InWords(_start.First, _start.Second)} or {InWords(_start.Second, _start.First)}.");
        }

        if ((dayFirst && _order == DayMonthOrder.MonthFirst && evidence == DayMonthEvidence.ProvesDayFirst)
            || (!dayFirst && _order == DayMonthOrder.DayFirst && evidence == DayMonthEvidence.ProvesMonthFirst))
        {
            Ask($"Only the {(dayFirst ? "first" : "second")} number can be the day, against the order of this list.");
        }

        _start.Order(dayFirst);
        if (_isRange)
        {
            _end.Order(dayFirst);
        }

        return null;
    }

    /// <summary>Tells 1907-08, a month, from 1914-15, two years.</summary>
    private Unreadable? SettleYearSpan(in DateScanner scanner, string meaning)
    {
        var (year, number) = (_start.Year, _start.Month);
        var follows = number.Digits == 2 && number.Value > year.Value % 100;
        if (meaning != "y-m" || year.Digits != 4 || !follows)
        {
            return null;
        }

        var isNext = number.Value == (year.Value % 100) + 1;
        if (number.Value <= 12 && !scanner.HasSeason)
        {
            var isSlash = scanner.Tokens[1].Shape == '/';
            return isSlash && isNext
                ? new(number.Column,
                    "The number after the stroke is a month or the next year; write the one that is meant.")
                : null;
        }

        _end.Year = number with { Value = (year.Value / 100 * 100) + number.Value, Digits = 4 };
        _end.FirstColumn = number.Column;
        _start.Month = default;
        _isRange = true;
        Ask($"Read as the years {year.Value} to {_end.Year.Value}.");
        return null;
    }

    /// <summary>Checks that one end of the date exists, and finds the century of a year of two digits.</summary>
    private Unreadable? CheckEnd(ref DateParts parts)
    {
        if (parts.Month.Value > 12)
        {
            return new(parts.Month.Column, $"There is no month {parts.Month.Value}.");
        }

        if (parts.Month.Value == 0 && parts.Day.Value != 0)
        {
            return new(parts.Day.Column, "A day without its month is not a date.");
        }

        if (parts.Day.Value > 31)
        {
            return new(parts.Day.Column, $"No month has a day {parts.Day.Value}.");
        }

        if (parts.Year.Digits == 2 && FindCentury(ref parts) is { } problem)
        {
            return problem;
        }

        if (parts.Year.Value is < EarliestYear or > LatestYear)
        {
            return new(parts.Year.Column, parts.Year.Digits == 0
                ? "The year is not known."
                : $"{parts.Year.Value:0000} cannot be the year in which a plant was pressed.");
        }

        return parts.Day.Value == 0 ? null : CheckDay(parts);
    }

    private static Unreadable? CheckDay(in DateParts parts)
    {
        var (day, month, year) = (parts.Day.Value, parts.Month.Value, parts.Year.Value);
        var days = DateTime.DaysInMonth(year, month);
        if (day <= days)
        {
            return null;
        }

        var name = CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(month);
        var when = month == 2 ? $"{name} {year}" : name;
        return new(parts.Day.Column, $"There is no {day} {when}: {when} has {days} days, 1 to {days}.");
    }

    private Unreadable? FindCentury(ref DateParts parts)
    {
        if (_latest is not { } latest)
        {
            return new(parts.Year.Column, "The year has two digits and the century is not known; write four digits.");
        }

        var written = parts.Year.Value;
        var year = (latest.Year / 100 * 100) + written;
        var month = Math.Max(parts.Month.Value, 1);
        var day = Math.Min(Math.Max(parts.Day.Value, 1), DateTime.DaysInMonth(year, month));
        if (new DateOnly(year, month, day) > latest)
        {
            year -= 100;
        }

        parts.Year = parts.Year with { Value = year, Digits = 4 };
        if (_question is null || !_question.StartsWith("The year is written", StringComparison.Ordinal))
        {
            Ask($"The year is written {written:00} and was read as {year}, the latest that can be meant.");
        }

        return null;
    }

    private Reading<CollectingDate> Finish(in DateScanner scanner, string meaning)
    {
        var start = _start.ToPartialDate();
        var end = _isRange ? _end.ToPartialDate() : start;
        var joined = scanner.AndColumn != 0 || meaning.Contains('&', StringComparison.Ordinal);
        if (joined && _isRange)
        {
            var areNeighbours = start.Precision == DatePrecision.Day && end.Precision == DatePrecision.Day
                && end.Earliest.DayNumber - start.Earliest.DayNumber == 1;
            if (!areNeighbours)
            {
                return Stopped(_verbatim, _end.FirstColumn,
                    "These are two visits, not one stretch of time; each needs its own gathering.");
            }

            Ask("Two days are named; they were read as one stretch.");
        }

        if (end.Latest < start.Earliest)
        {
            return Stopped(_verbatim, _end.FirstColumn, "The range ends before it begins.");
        }

        if (scanner.IsDecade)
        {
            end = new(start.Year + 9);
            Ask($"Read as the ten years from {start.Year}.");
        }

        AskAboutWords(scanner, start);
        return Found(new(start, end));
    }

    private void AskAboutWords(in DateScanner scanner, PartialDate start)
    {
        if (scanner.HasSeason && start.Precision == DatePrecision.Year)
        {
            Ask("A season has no fixed months, so only the year was read.");
        }

        if (scanner.HasPart)
        {
            Ask("A part of the time is named; it has no fixed days, so the whole was read.");
        }

        if (scanner.IsApproximate)
        {
            Ask("The date is marked as uncertain.");
        }

        if (scanner.IsBracketed)
        {
            Ask("The date or a part of it stands in brackets: it may have been supplied by somebody else.");
        }

        if (scanner.Weekday is { } weekday && !_isRange && start.Precision == DatePrecision.Day
            && start.Earliest.DayOfWeek != (DayOfWeek)weekday)
        {
            Ask($"{(DayOfWeek)weekday} is written, but that day was a {start.Earliest.DayOfWeek}.");
        }
    }

    private Reading<CollectingDate> Found(CollectingDate date)
    {
        if (_latest is { } latest && date.Earliest > latest)
        {
            Ask($"The date lies after {CollectingDate.On(latest).ForPeople()}.");
        }

        return Reading<CollectingDate>.Of(_verbatim, date, _question);
    }

    private void Ask(string question) => _question = _question is null ? question : $"{_question} {question}";

    private readonly Reading<CollectingDate> NotUnderstood(ReadOnlySpan<DateToken> tokens)
    {
        var understood = DateShapes.Understood(tokens);
        var column = understood < tokens.Length ? tokens[understood].Column : _verbatim.Length + 1;
        return Stopped(_verbatim, column,
            "Not a date that can be read; write it like 2026-06-14, 14 Jun 2026, Jun 2026 or 2026.");
    }

    /// <summary>Recognises the day count into which spreadsheets turn a date.</summary>
    private readonly Reading<CollectingDate>? SerialDay(ReadOnlySpan<DateToken> tokens)
    {
        var isCount = tokens is [{ Digits: 5 }] or [{ Digits: 5 }, { Shape: '.' }, _];
        if (!isCount || tokens[0].Value is < 10_000 or > 73_050)
        {
            return null;
        }

        // Day 60 of the count is a 29 February 1900 that never was, so later days run one ahead: day 0 is 30 December.
        var day = CollectingDate.On(new DateOnly(1899, 12, 30).AddDays(tokens[0].Value)).ForPeople();
        return Stopped(_verbatim, tokens[0].Column,
            $"It looks like a spreadsheet's count of days, which would be {day}; write the date itself.");
    }

    private static string InWords(DateToken day, DateToken month) =>
        $"{day.Value} {CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(month.Value)}";

    private static Reading<CollectingDate> Stopped(string verbatim, int column, string reason) =>
        Reading<CollectingDate>.Stopped(verbatim, column, reason);
}
