using System.Text.Json;
using Accession.Core.Batches;
using Accession.Core.Gatherings;

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
    public static string Remember(ColumnMatch match, string before)
    {
        var remembered = new Dictionary<string, string>(Remembered(before));
        foreach (var (heading, field) in match.Remembered())
        {
            remembered[heading] = field;
        }

        return JsonSerializer.Serialize(remembered);
    }
}
