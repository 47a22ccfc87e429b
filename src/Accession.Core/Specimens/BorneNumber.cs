using System.Globalization;
using System.Text;
using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>
/// The number that a sheet bears before it comes into the register. It is kept to the letter, so nothing is read from
/// it; it must only be such that it can be printed on one line, scanned and asked for.
/// </summary>
public static class BorneNumber
{
    /// <summary>The most characters a catalog number can have.</summary>
    public const int Longest = 40;

    // What stands for a letter that could not be decoded.
    private const char Lost = '\uFFFD';

    /// <summary>Reads a number as written, without the blanks around it.</summary>
    /// <param name="written">What stands in the list.</param>
    /// <returns>The number to the letter, or why it cannot be kept as one.</returns>
    public static Reading<string> Read(string written)
    {
        var number = written.Trim();
        if (number.Length == 0)
        {
            return Stopped(1, "The sheet has no number in this list");
        }

        var hidden = number.Index().FirstOrDefault(one => IsHidden(one.Item), (Index: -1, Item: ' '));
        if (hidden.Index >= 0)
        {
            return Stopped(hidden.Index + 1, hidden.Item switch
            {
                '\n' or '\r' => "There is a line break in the number",
                Lost => "A letter of the number was lost before the list reached us",
                _ => "There is a character in the number that cannot be seen",
            });
        }

        if (number.Length > Longest)
        {
            var length = number.Length.ToString(CultureInfo.InvariantCulture);
            return Stopped(Longest + 1, $"The number has {length} characters, and {Longest} are the most");
        }

        return number.Any(char.IsLetterOrDigit)
            ? Reading<string>.Of(written, number)
            : Stopped(1, "There is no letter and no digit in the number");

        Reading<string> Stopped(int column, string reason) => Reading<string>.Stopped(written, column,
            $"{reason}. Correct it and send the list again; or take the row as written: the sheet then waits to be "
            + "numbered by hand. Or leave it out.");
    }

    internal static bool IsHidden(char one) => one == Lost || char.GetUnicodeCategory(one)
        is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator
            or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Surrogate or UnicodeCategory.OtherNotAssigned
            or UnicodeCategory.PrivateUse;
}
