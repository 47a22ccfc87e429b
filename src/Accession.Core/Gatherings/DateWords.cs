using System.Collections.Frozen;
using System.Globalization;

namespace Accession.Core.Gatherings;

/// <summary>What a word inside a date is good for.</summary>
internal enum DateWordKind
{
    Unknown,
    Month,
    Season,
    Weekday,

    /// <summary>Joins without meaning: of, de, the, st, th.</summary>
    Filler,

    /// <summary>Makes a range: to, bis, au.</summary>
    Until,

    /// <summary>Joins two visits, or two days that follow one another: and, et, y.</summary>
    And,

    /// <summary>A part of a month or year that has no fixed days: early, end of.</summary>
    Part,

    /// <summary>About: ca., circa.</summary>
    Circa,

    /// <summary>Ten years: the s of 1840s.</summary>
    Decade,

    /// <summary>Stands where a number is not known: XX.</summary>
    Placeholder,

    /// <summary>Says that there is no date: s.d., undated.</summary>
    NoDate,
}

/// <summary>
/// The words of dates in English, Spanish, Portuguese, French, German, Italian and Latin. Every beginning of a month's
/// name of three letters or more stands for the month, unless it also begins another one (French "jui").
/// </summary>
internal static class DateWords
{
    private const int LongestWord = 16;

    private static readonly FrozenDictionary<string, (DateWordKind Kind, int Value)> Words = Build();

    private static readonly FrozenDictionary<string, (DateWordKind Kind, int Value)>.AlternateLookup<ReadOnlySpan<char>>
        Lookup = Words.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>Finds a word, whatever its letter case and accents.</summary>
    public static DateWordKind Find(ReadOnlySpan<char> word, out int value)
    {
        Span<char> folded = stackalloc char[LongestWord];
        var length = Fold(word, folded);
        if (length > 0 && Lookup.TryGetValue(folded[..length], out var found))
        {
            value = found.Value;
            return found.Kind;
        }

        value = 0;
        return DateWordKind.Unknown;
    }

    /// <summary>Whether the whole text says that there is no date, in more than one word.</summary>
    public static bool SayNoDate(ReadOnlySpan<char> text)
    {
        ReadOnlySpan<string> phrases =
            ["s.d.", "s. d.", "n.d.", "no date", "sine dato", "sin fecha", "sem data", "sans date", "ohne datum"];
        foreach (var phrase in phrases)
        {
            if (text.Equals(phrase, StringComparison.OrdinalIgnoreCase))
            {
                return true;
            }
        }

        return false;
    }

    private static int Fold(ReadOnlySpan<char> word, Span<char> folded)
    {
        var length = 0;
        foreach (var c in word)
        {
            if (c >= '\u0300' && CharUnicodeInfo.GetUnicodeCategory(c) is UnicodeCategory.NonSpacingMark)
            {
                continue;
            }

            if (length == folded.Length)
            {
                return 0;
            }

            folded[length++] = WithoutAccent(char.ToLowerInvariant(c));
        }

        return length;
    }

    private static char WithoutAccent(char c) => c switch
    {
        < '\u0080' => c,
        >= 'à' and <= 'å' or 'ã' => 'a',
        >= 'è' and <= 'ë' => 'e',
        >= 'ì' and <= 'ï' => 'i',
        >= 'ò' and <= 'ö' => 'o',
        >= 'ù' and <= 'ü' => 'u',
        'ç' => 'c',
        'ñ' => 'n',
        _ => c,
    };

    private static FrozenDictionary<string, (DateWordKind Kind, int Value)> Build()
    {
        var words = new Dictionary<string, (DateWordKind Kind, int Value)>();
        AddMonthBeginnings(words);

        // Common practice on labels, no published source.
        Add(words, DateWordKind.Month, 3, "mch mrz");
        Add(words, DateWordKind.Month, 4, "ap");
        Add(words, DateWordKind.Month, 5, "my");
        Add(words, DateWordKind.Month, 7, "jly");

        string[] roman = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"];
        for (var month = 1; month <= 12; month++)
        {
            Add(words, DateWordKind.Month, month, roman[month - 1]);
        }

        Add(words, DateWordKind.Season, 0,
            "spring summer autumn fall winter primavera verano otono invierno verao outono inverno printemps ete "
            + "automne hiver fruhling fruhjahr sommer herbst estate autunno vere aestate autumno hieme");
        Add(words, DateWordKind.Part, 0,
            "early mid middle late end beginning begin start principios mediados fines finales inicio inicios meados "
            + "fim final debut fin anfang mitte ende inizio meta fine initio fine");
        Add(words, DateWordKind.Circa, 0, "ca c circa about approx approximately around cerca vers environ um etwa");
        Add(words, DateWordKind.Until, 0, "to until till through thru a al ate au bis ad");
        Add(words, DateWordKind.And, 0, "and y e et und");
        Add(words, DateWordKind.Filler, 0,
            "of the on in de del den der des di do da dia st nd rd th er º ª o en im le el am");
        Add(words, DateWordKind.Decade, 0, "s");
        Add(words, DateWordKind.Placeholder, 0, "xx");
        Add(words, DateWordKind.NoDate, 0, "undated unknown nodate sd nd none illegible");
        AddWeekdays(words);
        return words.ToFrozenDictionary();
    }

    private static void AddMonthBeginnings(Dictionary<string, (DateWordKind Kind, int Value)> words)
    {
        string[] names =
        [
            "january enero janeiro janvier januar janner gennaio januarius januarii ianuarius ianuarii",
            "february febrero fevereiro fevrier februar feber febbraio februarius februarii",
            "march marzo marco mars marz maerz martius martii",
            "april abril avril aprile aprilis",
            "may mayo maio mai maggio maius maii maji",
            "june junio junho juin juni giugno junius junii iunius iunii",
            "july julio julho juillet juli luglio julius julii iulius iulii",
            "august agosto aout agosto augustus augusti",
            "september septiembre setiembre setembro septembre settembre septembris",
            "october octubre outubro octobre oktober ottobre octobris",
            "november noviembre novembro novembre novembris",
            "december diciembre dezembro decembre dezember dicembre decembris",
        ];
        var ambiguous = new HashSet<string>();
        for (var month = 1; month <= names.Length; month++)
        {
            foreach (var name in names[month - 1].Split(' '))
            {
                for (var length = 3; length <= name.Length; length++)
                {
                    var beginning = name[..length];
                    if (words.TryGetValue(beginning, out var other) && other.Value != month)
                    {
                        ambiguous.Add(beginning);
                    }

                    words[beginning] = (DateWordKind.Month, month);
                }
            }
        }

        foreach (var beginning in ambiguous)
        {
            words.Remove(beginning);
        }
    }

    private static void AddWeekdays(Dictionary<string, (DateWordKind Kind, int Value)> words)
    {
        // The value is that of System.DayOfWeek. French "mar." is left to March.
        string[] days =
        [
            "sunday sun domingo dimanche sonntag domenica",
            "monday mon lunes lundi montag lunedi",
            "tuesday tue tues martes mardi dienstag martedi",
            "wednesday wed weds miercoles mercredi mittwoch mercoledi",
            "thursday thu thur thurs jueves jeudi donnerstag giovedi",
            "friday fri viernes vendredi freitag venerdi",
            "saturday sat sabado samedi samstag sonnabend sabato",
        ];
        for (var day = 0; day < days.Length; day++)
        {
            Add(words, DateWordKind.Weekday, day, days[day]);
        }
    }

    private static void Add(
        Dictionary<string, (DateWordKind Kind, int Value)> words, DateWordKind kind, int value, string list)
    {
        foreach (var word in list.Split(' '))
        {
            words[word] = (kind, value);
        }
    }
}
