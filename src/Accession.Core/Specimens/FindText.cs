using System.Text;
using Accession.Core.Gatherings;
using Accession.Core.Texts;

namespace Accession.Core.Specimens;

/// <summary>
/// The words by which a sheet is found: its number, every name it was given, who collected it, when, and where as
/// everyone may know it. Folded, one blank between words, so that both databases find alike.
/// </summary>
public static class FindText
{
    /// <summary>The most words of a question that count; further ones are left out.</summary>
    public const int MostWords = 12;

    /// <summary>The words of a sheet.</summary>
    /// <param name="catalogNumber">Its number.</param>
    /// <param name="names">Every name it was given.</param>
    /// <param name="gathering">The gathering it is of, with what everyone may know of the place.</param>
    public static string Of(string catalogNumber, IEnumerable<string> names, Gathering gathering)
    {
        ArgumentNullException.ThrowIfNull(gathering);
        var (notes, place) = (gathering.Notes, gathering.Place);
        // With the name of the month, by which people remember it. A date that is damaged is found as it stands.
        var date = CollectingDate.Read(notes.EventDate) is { IsRead: true } read
            ? $"{notes.EventDate} {read.Value.ForPeople()}"
            : $"{notes.EventDate} {notes.DateVerbatim}";
        return string.Join(' ', WordsOf(string.Join(
            ' ',
            [
                catalogNumber, notes.RecordedBy, notes.RecordNumber, .. names, notes.Family, date, place.Country,
                place.StateProvince, place.County, place.Municipality, place.Locality, place.Habitat,
                notes.OtherCatalogNumbers,
            ])).Distinct());
    }

    /// <summary>The words of what somebody asks for, in their order.</summary>
    /// <param name="asked">What was typed.</param>
    public static IReadOnlyList<string> WordsAsked(string asked) => [.. WordsOf(asked).Distinct().Take(MostWords)];

    // Letters and digits are words, everything between them is not. The sign of a hybrid is none, also where it was
    // typed as a letter.
    private static IEnumerable<string> WordsOf(string text) => Runs(text).Where(word => word != "x");

    private static IEnumerable<string> Runs(string text)
    {
        var word = new StringBuilder();
        foreach (var letter in Folding.Fold(text))
        {
            if (char.IsLetterOrDigit(letter))
            {
                word.Append(letter);
            }
            else if (word.Length > 0)
            {
                yield return word.ToString();
                word.Clear();
            }
        }

        if (word.Length > 0)
        {
            yield return word.ToString();
        }
    }
}
