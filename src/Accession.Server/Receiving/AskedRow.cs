using Accession.Server.Mail;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>A row whose collector is asked: since when, by whom, and with which letter.</summary>
public sealed record AskedRow(int Line, DateTime At, string By, ShownLetter? Letter)
{
    private const int Most = 200;

    /// <summary>The first of a batch, in the order of the list.</summary>
    public static async Task<IReadOnlyList<AskedRow>> OfAsync(
        AccessionDb db, long batchId, CancellationToken cancellation)
    {
        var rows = await db.Rows.Where(row => row.BatchId == batchId).Where(SettledRows.Asked)
            .OrderBy(row => row.Line).ThenBy(row => row.Id).Take(Most)
            .Select(row => new
            {
                row.Id,
                row.Line,
                Decision = db.Decisions.Where(d => d.RowId == row.Id).OrderByDescending(d => d.Id)
                    .Select(d => new { d.Id, d.Act.At, d.Act.ActorName }).First(),
            })
            .ToListAsync(cancellation);
        var letters = await ShownLetter.AboutAsync(db, [.. rows.Select(row => row.Id)], cancellation);
        var byDecision = letters.Where(letter => letter.DecisionId is not null)
            .ToLookup(letter => letter.DecisionId!.Value);
        return
        [
            .. rows.Select(row => new AskedRow(
                row.Line, row.Decision.At, row.Decision.ActorName, byDecision[row.Decision.Id].LastOrDefault())),
        ];
    }
}
