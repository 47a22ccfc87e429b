using System.Buffers;
using System.Collections.Frozen;
using Accession.Core.People;
using Accession.Core.Texts;

namespace Accession.Core.Gatherings;

/// <summary>The spellings of "without a number", in the languages that labels are written in.</summary>
internal static class StatedAbsence
{
    private static readonly FrozenSet<string> Phrases = """
        sn sinenumero sinenum sineno sinnumero sinno sinnum semnumero semno nonumber nonum nocollectornumber
        withoutnumber withoutno unnumbered nonumbered none null nil na nan notavailable unavailable nodisponible
        naodisponivel unknown notrecorded notgiven nocollno nocollectionnumber sansnumero ohnenummer onn unk blank
        missing nodata noindicado naoinformado notapplicable nonumero nenhum ninguno ninguna keine aucun nn illegible
        datanotcaptured
        """.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).ToFrozenSet();

    private static readonly SearchValues<char> EmptySigns = SearchValues.Create("0-—–_. ");

    /// <summary>Whether the whole text says that there is no number; zeros and dashes alone say so too.</summary>
    public static bool IsAll(ReadOnlySpan<char> text)
    {
        if (text.Length > 40)
        {
            return false;
        }

        var hasOther = text.ContainsAnyExcept(EmptySigns);
        return hasOther
            ? !text.ContainsAnyInRange('1', '9') && Phrases.Contains(Folding.Key(text))
            : text.ContainsAny("0-—–_");
    }

    /// <summary>Whether the text begins with s.n. and a remark follows: "s.n. (14 June)".</summary>
    public static bool Begins(ReadOnlySpan<char> text)
    {
        var length = SpelledLength(text);
        return length > 0 && (length == text.Length || !char.IsLetterOrDigit(text[length]));
    }

    /// <summary>Cuts s.n. off the end, as in "Torvald s.n."; says whether it was there.</summary>
    public static bool CutFromEnd(ref ReadOnlySpan<char> text)
    {
        for (var length = 5; length >= 2; length--)
        {
            var start = text.Length - length;
            if (start > 0 && text[start - 1] is ' ' or ',' or '.' && SpelledLength(text[start..]) == length)
            {
                text = text[..start].TrimEnd(" ,");
                return true;
            }
        }

        return false;
    }

    /// <summary>How many characters at the beginning spell s.n., with stops, spaces or a slash between.</summary>
    private static int SpelledLength(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty || text[0] is not ('s' or 'S'))
        {
            return 0;
        }

        var i = 1;
        while (i < text.Length && text[i] is '.' or ' ' or '/')
        {
            i++;
        }

        if (i >= text.Length || text[i] is not ('n' or 'N') || i > 3)
        {
            return 0;
        }

        i++;
        return i < text.Length && text[i] == '.' ? i + 1 : i;
    }
}
