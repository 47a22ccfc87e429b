using System.Text.Json;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;

namespace Accession.Server.Receiving;

/// <summary>
/// Headings, matches and what dates prove, as they are stored: JSON on the list, the batch and the source.
/// </summary>
internal static class ListColumns
{
    public static IReadOnlyList<string> Headings(string json) => JsonSerializer.Deserialize<List<string>>(json)!;

    public static IReadOnlyDictionary<string, string> Remembered(string json) =>
        JsonSerializer.Deserialize<Dictionary<string, string>>(json)!;

    public static ColumnMatch Match(string headings, string remembered, bool carriesNumbers) =>
        ColumnMatch.Propose(Headings(headings), Remembered(remembered), carriesNumbers);

    /// <summary>Why columns cannot have these meanings; null when they can.</summary>
    public static Refusal? WhyNot(IReadOnlyDictionary<string, string> meanings)
    {
        var named = meanings.Values.Where(name => name.Length > 0).ToList();
        if (named.Any(name => ListField.Named(name) is null))
        {
            return new(RefusalKind.Invalid, "A column was given a meaning that is not known. Choose one of the list.");
        }

        return named.Where(name => ListField.Named(name)!.IsSingle).GroupBy(name => name)
            .FirstOrDefault(group => group.Count() > 1) is { } twice
            ? new(RefusalKind.Invalid, $"Two columns were given the meaning {twice.Key}; only one can have it.")
            : null;
    }

    /// <summary>What the dates of a list prove, as it was stored with the list.</summary>
    public static OrderTally Dates(string json) => JsonSerializer.Deserialize<OrderTally>(json)!;

    /// <summary>Whether somebody still has to say if the day or the month comes first.</summary>
    public static bool AsksForOrder(DayMonthOrder order, OrderTally dates) =>
        order == DayMonthOrder.Unsettled && dates.NeedsAnswer;

    /// <summary>Whether that question of a batch is open; its latest list that could be read asks it.</summary>
    public static bool AsksForOrder(Batch batch) =>
        batch.Lists.Where(list => list is { IsRead: true, RefusedBecause: null }).MaxBy(list => list.Id) is { } latest
        && AsksForOrder(batch.DayMonthOrder, Dates(latest.DateEvidence));

    /// <summary>What is remembered once these columns were matched, beside what other lists taught.</summary>
    public static string Remember(ColumnMatch match, string before) => Remember(match.Remembered(), before);

    /// <summary>What is remembered once these meanings were chosen, beside what other lists taught.</summary>
    public static string Remember(IReadOnlyDictionary<string, string> meanings, string before)
    {
        var remembered = new Dictionary<string, string>(Remembered(before));
        foreach (var (heading, field) in meanings)
        {
            remembered[heading] = field;
        }

        return JsonSerializer.Serialize(remembered);
    }
}
