using Accession.Core.Gatherings;
using Accession.Core.Outcomes;

namespace Accession.Core.Determinations;

/// <summary>What a slip says, before it is on record: a name, by whom and when.</summary>
public sealed record Opinion
{
    /// <summary>The longest name and the longest list of determiners, in characters.</summary>
    public const int Longest = 400;

    /// <summary>The longest reason, in characters.</summary>
    public const int LongestReason = 2000;

    private Opinion()
    {
    }

    /// <summary>The name to the letter, with authors.</summary>
    public required string Name { get; init; }

    /// <summary>The doubt about it, such as "cf."; empty when there is none.</summary>
    public required string Qualifier { get; init; }

    /// <summary>The family; empty when it is not given.</summary>
    public required string Family { get; init; }

    /// <summary>Who said so, as on the slip.</summary>
    public required string IdentifiedBy { get; init; }

    /// <summary>When, with its own precision; null when the slip does not say.</summary>
    public required CollectingDate? Date { get; init; }

    /// <summary>What kind of opinion it is.</summary>
    public required DeterminationKind Kind { get; init; }

    /// <summary>On what it rests.</summary>
    public required SeenOn SeenOn { get; init; }

    /// <summary>Why: the flora and key that were used, the characters seen; empty when nobody says.</summary>
    public required string Reason { get; init; }

    /// <summary>A slip as it was typed.</summary>
    /// <param name="Name">The name.</param>
    /// <param name="Qualifier">The doubt about it.</param>
    /// <param name="Family">The family.</param>
    /// <param name="IdentifiedBy">Who said so.</param>
    /// <param name="Date">When: a year, a month and year, or a day.</param>
    /// <param name="Kind">What kind of opinion it is.</param>
    /// <param name="SeenOn">On what it rests.</param>
    /// <param name="Reason">Why.</param>
    public sealed record Typed(
        string? Name, string? Qualifier, string? Family, string? IdentifiedBy, string? Date,
        DeterminationKind Kind, SeenOn SeenOn, string? Reason);

    /// <summary>Reads a slip, or says everything that is wrong with it.</summary>
    /// <param name="typed">The slip.</param>
    /// <param name="today">The day it is here; nobody names a plant tomorrow.</param>
    public static Outcome<Opinion> Read(Typed typed, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var (name, by, reason) = (Tidy(typed.Name), Tidy(typed.IdentifiedBy), typed.Reason?.Trim() ?? "");
        var date = string.IsNullOrWhiteSpace(typed.Date)
            ? (Reading<CollectingDate>?)null
            : CollectingDate.Read(typed.Date.Trim());
        List<Refusal> refusals = [];
        Say(name.Length is 0 or > Longest,
            $"Write the name as it stands on the slip, in at most {Longest} characters.");
        Say(by.Length is 0 or > Longest, "Write who says so, as on the slip.");
        Say(Tidy(typed.Qualifier).Length > 40, "The doubt is a word or two, such as cf. or aff.");
        Say(typed.Kind == DeterminationKind.Rejection && Tidy(typed.Qualifier).Length > 0,
            "A name is denied or doubted, not both. Leave the doubt empty where the slip says that it is not this.");
        Say(Tidy(typed.Family).Length > 100, "The family is one word, such as Poaceae.");
        Say(reason.Length > LongestReason, $"The reason has more than {LongestReason:N0} characters.");
        Say(!Enum.IsDefined(typed.Kind) || typed.Kind == DeterminationKind.Listed,
            "Choose what kind of opinion it is.");
        Say(!Enum.IsDefined(typed.SeenOn), "Choose on what it rests.");
        Say(date is { IsRead: false }, date?.Unreadable?.Reason ?? "");
        Say(date is { IsRead: true, Question: not null }, date?.Question ?? "");
        Say(date is { IsRead: true } && date.Value.Value.Earliest > today,
            "The day of the opinion is still to come. Write when it was given.");
        return refusals is []
            ? new Opinion
            {
                Name = name,
                Qualifier = Tidy(typed.Qualifier),
                Family = Tidy(typed.Family),
                IdentifiedBy = by,
                Date = date?.Value,
                Kind = typed.Kind,
                SeenOn = typed.SeenOn,
                Reason = reason,
            }
            : refusals;

        void Say(bool isWrong, string sentence)
        {
            if (isWrong)
            {
                refusals.Add(new(RefusalKind.Invalid, sentence));
            }
        }
    }

    private static string Tidy(string? text) =>
        string.Join(' ', (text ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
