using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>The sheets somebody counted in a pile, against those that a list promises.</summary>
/// <param name="Sheets">The sheets counted; 0 to 10,000,000.</param>
/// <param name="Note">What is missing or extra; needed when list and pile differ.</param>
public readonly record struct PileCount(int Sheets, string? Note)
{
    private const int MostSheets = 10_000_000;
    private const int FewestLetters = 3;

    /// <summary>
    /// What list and pile differ by, such as "2 sheets missing" or "1 sheet extra"; null when they agree.
    /// </summary>
    /// <param name="onList">The sheets that the list promises.</param>
    public string? Difference(int onList) => (Sheets - onList) switch
    {
        0 => null,
        1 => "1 sheet extra",
        -1 => "1 sheet missing",
        > 0 and var extra => $"{extra:N0} sheets extra",
        var missing => $"{-missing:N0} sheets missing",
    };

    /// <summary>Says why the count cannot stand as stated; null when it can.</summary>
    /// <param name="onList">The sheets that the list promises.</param>
    public Refusal? WhyNot(int onList)
    {
        if (Sheets is < 0 or > MostSheets)
        {
            return new(RefusalKind.Invalid, "The sheets in the pile are a number from 0 to 10,000,000.");
        }

        // A dash or a tick explains nothing to whoever looks for the sheet in ten years.
        var isExplained = Note is not null && Note.Count(char.IsLetter) >= FewestLetters;
        return Difference(onList) is { } difference && !isExplained
            ? new(RefusalKind.Invalid,
                $"The list promises {onList} sheets and the pile holds {Sheets}: {difference}. "
                + "Write a note that says in words which they are and why, or count again.")
            : null;
    }
}
