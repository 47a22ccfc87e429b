using System.Collections.Frozen;
using System.Text.RegularExpressions;
using Accession.Core.Gatherings;

namespace Accession.Core.Determinations;

/// <summary>
/// Reads the identifications that came with a record in an archive out of the cell that keeps them to the letter: one
/// on a line, as "identifiedBy: A. Orm; dateIdentified: 2025-11". The terms are those of the Identification and Taxon
/// classes of Darwin Core, https://dwc.tdwg.org/terms/.
/// </summary>
public static partial class IdentificationHistory
{
    /// <summary>The heading of the column that keeps them.</summary>
    public const string Heading = "Identification rows";

    // What stands in fields of its own, or only repeats to which record the row belongs.
    private static readonly FrozenSet<string> Placed = FrozenSet.Create(
        "coreid", "scientificName", "verbatimIdentification", "identificationQualifier", "family", "identifiedBy",
        "dateIdentified", "identificationRemarks");

    /// <summary>Reads the cell.</summary>
    /// <param name="cell">The text of the cell; may be empty.</param>
    /// <returns>The identifications in the order of the cell, rows without a name among them.</returns>
    public static IReadOnlyList<ListedIdentification> Read(string cell)
    {
        List<string> rows = [];
        foreach (var line in cell.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            // A line that begins with no term goes on with the text of the one before.
            if (rows.Count > 0 && !Term().IsMatch(line))
            {
                rows[^1] += $"\n{line}";
            }
            else
            {
                rows.Add(line);
            }
        }

        return rows.ConvertAll(OfRow);
    }

    private static ListedIdentification OfRow(string row)
    {
        var terms = Terms().Matches(row);
        Dictionary<string, string> said = [];
        for (var i = 0; i < terms.Count; i++)
        {
            var from = terms[i].Index + terms[i].Length;
            var to = i + 1 < terms.Count ? terms[i + 1].Index : row.Length;
            // Should a text of a remark look like a term that was said before, it stays with what it stands in.
            if (!said.TryAdd(terms[i].Groups[1].Value, row[from..to].Trim()))
            {
                said[terms[i].Groups[1].Value] += $"; {row[from..to].Trim()}";
            }
        }

        var dated = said.GetValueOrDefault("dateIdentified", "");
        var date = dated.Length == 0 ? default : CollectingDate.Read(dated);
        var isRead = dated.Length > 0 && date.IsRead;
        return new()
        {
            Name = NameIn(said),
            Qualifier = said.GetValueOrDefault("identificationQualifier", ""),
            Family = said.GetValueOrDefault("family", ""),
            IdentifiedBy = said.GetValueOrDefault("identifiedBy", ""),
            DateVerbatim = dated,
            DateIdentified = isRead ? date.Value.ToIso8601() : "",
            DateProblem = dated.Length == 0 || isRead ? null : date.Unreadable!.Reason,
            IsAccepted = said.GetValueOrDefault("isAcceptedIdentification", "") is "true" or "1",
            Remarks = string.Join(
                "; ",
                said.Where(term => !Placed.Contains(term.Key)).Select(term => $"{term.Key}: {term.Value}")
                    .Prepend(said.GetValueOrDefault("identificationRemarks", "")).Where(text => text.Length > 0)),
        };
    }

    private static string NameIn(Dictionary<string, string> said)
    {
        string[] parts = ["genus", "specificEpithet", "infraspecificEpithet", "scientificNameAuthorship"];
        return said.GetValueOrDefault("scientificName") is { Length: > 0 } name ? name
            : said.GetValueOrDefault("verbatimIdentification") is { Length: > 0 } written ? written
            : said.ContainsKey("genus")
                ? string.Join(
                    ' ', parts.Select(part => said.GetValueOrDefault(part, "")).Where(part => part.Length > 0))
            : "";
    }

    [GeneratedRegex("(?:^|; )([a-z][A-Za-z]*): ")]
    private static partial Regex Terms();

    [GeneratedRegex("^[a-z][A-Za-z]*: ")]
    private static partial Regex Term();
}
