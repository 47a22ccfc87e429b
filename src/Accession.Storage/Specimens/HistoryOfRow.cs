using System.Text.Json;
using Accession.Core.Batches;
using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Specimens;

/// <summary>The identifications that came with the row of a gathering in an archive.</summary>
public static class HistoryOfRow
{
    /// <summary>Those of the row that a gathering was; none where its list is no archive, or has no history.</summary>
    public static async Task<IReadOnlyList<ListedIdentification>> OfAsync(
        AccessionDb db, Gathering gathering, CancellationToken cancellation)
    {
        var row = await db.Rows.Where(row => row.Id == gathering.BatchRowId)
            .Join(
                db.Lists.Where(list => list.Headings.Contains(IdentificationHistory.Heading)),
                row => row.FirstListId, list => list.Id, (row, list) => new { row.Cells, list.Headings })
            .SingleOrDefaultAsync(cancellation);
        return row is null ? [] : Of(RowCells.FromJson(row.Cells), row.Headings);
    }

    /// <summary>Those that stand in the cells of a row.</summary>
    /// <param name="cells">The cells.</param>
    /// <param name="headings">The headings as the list stores them.</param>
    public static IReadOnlyList<ListedIdentification> Of(RowCells cells, string headings)
    {
        var column = Array.IndexOf(
            JsonSerializer.Deserialize<string[]>(headings) ?? [], IdentificationHistory.Heading);
        return column < 0 || column >= cells.Cells.Count ? [] : IdentificationHistory.Read(cells.Cells[column]);
    }
}
