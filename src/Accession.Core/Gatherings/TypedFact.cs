using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.People;

namespace Accession.Core.Gatherings;

/// <summary>Reads what a curator types into a field of an accepted record.</summary>
public static class TypedFact
{
    /// <summary>The longest text of a place or a remark, in characters.</summary>
    public const int Longest = 4000;

    private const int LongestName = 200;

    /// <summary>The text of the field that was meant, or why nothing can be meant by it.</summary>
    /// <param name="field">The field.</param>
    /// <param name="typed">What was typed; blank means that nothing is known.</param>
    /// <param name="now">The facts as they stand: what was not touched stays as it is, to the last digit.</param>
    /// <param name="today">The day it is here; nothing is collected tomorrow.</param>
    public static Outcome<string> Read(CorrectedField field, string? typed, RecordedFacts now, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(now);
        var text = Tidy(typed);
        var stands = now.Text(field);
        return text == Tidy(RecordedFacts.AsTyped(field, stands)) ? stands
            : text.Length > Most(field) ? Wrong($"Write at most {Most(field):N0} characters.")
            : field switch
            {
                CorrectedField.Collectors => ReadCollectors(text),
                _ when text.Length == 0 => "",
                CorrectedField.Number => ReadNumber(text),
                CorrectedField.Date => ReadDate(text, today),
                CorrectedField.Coordinates => ReadPoint(text),
                CorrectedField.Uncertainty => ReadRadius(text),
                CorrectedField.Elevation => ReadHeight(text),
                CorrectedField.GeodeticDatum => Datum.Read(text) is { IsRead: true } known ? known.Value.Name : text,
                _ => text,
            };
    }

    /// <summary>How many characters a field takes.</summary>
    /// <param name="field">The field.</param>
    public static int Most(CorrectedField field) => field switch
    {
        CorrectedField.Locality or CorrectedField.Habitat or CorrectedField.Remarks or CorrectedField.AssociatedTaxa
            or CorrectedField.Collectors => Longest,
        _ => LongestName,
    };

    private static Outcome<string> ReadCollectors(string text)
    {
        var read = Collectors.Read(text);
        return !read.IsRead ? Wrong(read.Unreadable.Reason)
            : read.Value.NumberInText.Length > 0 ? Wrong("Write the number in the field of the number.")
            : read.Value.ToString() is { Length: > 0 } named ? named
            : text;
    }

    private static Outcome<string> ReadNumber(string text) =>
        CollectorNumber.Read(text) is { IsRead: false } unread ? Wrong(unread.Unreadable.Reason) : text;

    private static Outcome<string> ReadDate(string text, DateOnly today)
    {
        var read = CollectingDate.Read(text);
        return !read.IsRead ? Wrong(read.Unreadable.Reason)
            : read.Question is { } doubt ? Wrong($"{doubt} Write it as 2024-06-14 or 14 Jun 2024.")
            : read.Value.Earliest > today ? Wrong("That day is still to come.")
            : read.Value.ToIso8601();
    }

    private static Outcome<string> ReadPoint(string text)
    {
        var read = Coordinates.Read(text);
        if (!read.IsRead)
        {
            return Wrong(read.Unreadable.Reason);
        }

        var point = read.Value.AsHeld();
        return RecordedFacts.Figures(
            (double)point.Latitude, (double)point.Longitude, (double)read.Value.Precision.Degrees);
    }

    private static Outcome<string> ReadRadius(string text)
    {
        var read = UncertaintyRadius.Read(text);
        return read.IsRead
            ? RecordedFacts.Figures((double)read.Value.Meters)
            : Wrong(read.Unreadable.Reason);
    }

    private static Outcome<string> ReadHeight(string text)
    {
        var read = Elevation.Read(text);
        return read.IsRead
            ? RecordedFacts.Figures((double)read.Value.MinimumInMeters, (double)read.Value.MaximumInMeters)
            : Wrong(read.Unreadable.Reason);
    }

    // One line, as a label's field is: blanks between words are one, and nothing stands there that cannot be typed.
    private static string Tidy(string? text) => string.Join(
        ' ',
        new string([.. (text ?? "").Select(letter => char.IsControl(letter) ? ' ' : letter)])
            .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    // There is no heading here.
    private static Refusal Wrong(string why) => new(
        RefusalKind.Invalid, why.Replace(", or name it in the heading", "", StringComparison.Ordinal));
}
