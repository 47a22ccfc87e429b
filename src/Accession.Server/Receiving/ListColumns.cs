using System.Text.Json;
using Accession.Core.Batches;

namespace Accession.Server.Receiving;

/// <summary>Headings and matches as they are stored: JSON on the list, the batch and the source.</summary>
internal static class ListColumns
{
    public static IReadOnlyList<string> Headings(string json) => JsonSerializer.Deserialize<List<string>>(json)!;

    public static IReadOnlyDictionary<string, string> Remembered(string json) =>
        JsonSerializer.Deserialize<Dictionary<string, string>>(json)!;

    public static ColumnMatch Match(string headings, string remembered) =>
        ColumnMatch.Propose(Headings(headings), Remembered(remembered));

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
