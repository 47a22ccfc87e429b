using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.People;

/// <summary>
/// In which years somebody collected, as a curator said it: both years belong to them, and a year that is not stated
/// leaves that side open. By them two persons of one spelling are told apart.
/// </summary>
/// <param name="First">The first year, 1500 to the present; null where nothing is said.</param>
/// <param name="Last">The last year, not before the first; null where nothing is said or they still collect.</param>
public readonly record struct CollectingYears(int? First, int? Last)
{
    /// <summary>The first year that can be stated.</summary>
    public const int Earliest = 1500;

    /// <summary>Nothing is said: every year.</summary>
    public static CollectingYears Any { get; }

    /// <summary>Whether anything is said.</summary>
    public bool AreStated => First is not null || Last is not null;

    /// <summary>Reads what a curator wrote, or says why it cannot be.</summary>
    /// <param name="first">The first year in four digits; empty for an open side.</param>
    /// <param name="last">The last year in four digits; empty for an open side.</param>
    /// <param name="thisYear">The year in which it is written; nobody collected later.</param>
    public static Outcome<CollectingYears> Read(string? first, string? last, int thisYear)
    {
        if (YearOf(first, thisYear) is not { } from || YearOf(last, thisYear) is not { } to)
        {
            return new Refusal(RefusalKind.Invalid, string.Create(CultureInfo.InvariantCulture,
                $"Write each year in four digits, from {Earliest} to {thisYear}, or leave it empty where it is open."));
        }

        return from > 0 && to > 0 && to < from
            ? new Refusal(RefusalKind.Invalid, "The last year is before the first. Were they changed round?")
            : new CollectingYears(from > 0 ? from : null, to > 0 ? to : null);
    }

    /// <summary>Whether a year is one of these.</summary>
    /// <param name="year">The year.</param>
    public bool Hold(int year) => (First is null || year >= First) && (Last is null || year <= Last);

    /// <summary>Whether any of a stretch of years is one of these.</summary>
    /// <param name="from">The first year of the stretch.</param>
    /// <param name="to">The last year of the stretch.</param>
    public bool Meet(int from, int to) => (First is null || to >= First) && (Last is null || from <= Last);

    /// <summary>Whether a year may be of these and of others at once.</summary>
    /// <param name="others">Another person's years.</param>
    public bool Overlap(CollectingYears others) =>
        (First is null || others.Last is null || First <= others.Last)
        && (others.First is null || Last is null || others.First <= Last);

    /// <summary>The years of one person who was taken for two: from the first of both to the last of both.</summary>
    /// <param name="others">The years under which the same person was known beside these.</param>
    public CollectingYears With(CollectingYears others) => new(
        First is null || others.First is null ? null : Math.Min(First.Value, others.First.Value),
        Last is null || others.Last is null ? null : Math.Max(Last.Value, others.Last.Value));

    /// <summary>The years in words: "1931 to 1958", "from 2011", "until 1958", "any year".</summary>
    public override string ToString() => (First, Last) switch
    {
        ({ } first, { } last) when first == last => first.ToString(CultureInfo.InvariantCulture),
        ({ } first, { } last) => string.Create(CultureInfo.InvariantCulture, $"{first} to {last}"),
        ({ } first, null) => string.Create(CultureInfo.InvariantCulture, $"from {first}"),
        (null, { } last) => string.Create(CultureInfo.InvariantCulture, $"until {last}"),
        _ => "any year",
    };

    // 0 for an open side, null for what is no year.
    private static int? YearOf(string? text, int thisYear) => string.IsNullOrWhiteSpace(text) ? 0
        : int.TryParse(text.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var year)
            && year >= Earliest && year <= thisYear ? year : null;
}
