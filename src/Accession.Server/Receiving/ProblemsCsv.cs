using System.Globalization;
using System.Text;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// The problems of a batch's latest list as CSV, to send back to whoever made the list: line, column, text, reason.
/// </summary>
internal static class ProblemsCsv
{
    public static async Task<IResult> DownloadAsync(
        long id, AccessionDb db, HttpResponse response, CancellationToken cancellation)
    {
        var listId = await db.Lists.Where(list => list.BatchId == id)
            .OrderByDescending(list => list.RefusedBecause == null).ThenByDescending(list => list.Id)
            .Select(list => (long?)list.Id).FirstOrDefaultAsync(cancellation);
        if (listId is null)
        {
            return Results.NotFound();
        }

        var refused = await db.Lists.Where(list => list.Id == listId).Select(list => list.RefusedBecause)
            .SingleAsync(cancellation);
        var problems = db.Problems.Where(p => p.ListId == listId).OrderBy(p => p.Line).ThenBy(p => p.Id)
            .Select(p => new { p.Line, p.ColumnName, p.Text, p.Reason, p.Blocks }).AsAsyncEnumerable();
        response.ContentType = "text/csv; charset=utf-8";
        response.Headers.ContentDisposition = $"attachment; filename=\"batch-{id}-problems.csv\"";
        await using var text = new StreamWriter(response.Body, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
        await text.WriteLineAsync("line,column,text,reason,holds the row up");
        if (refused is not null)
        {
            await text.WriteLineAsync($",,,{Cell(refused)},yes");
        }

        await foreach (var problem in problems.WithCancellation(cancellation))
        {
            string[] cells =
            [
                problem.Line.ToString(CultureInfo.InvariantCulture), problem.ColumnName, problem.Text, problem.Reason,
                problem.Blocks ? "yes" : "no",
            ];
            await text.WriteLineAsync(string.Join(',', cells.Select(Cell)));
        }

        await WriteWarningsAsync(id, db, text, cancellation);
        return Results.Empty;
    }

    // Behind the problems: what permits say is about the row as a whole, and holds nothing up.
    private static async Task WriteWarningsAsync(
        long id, AccessionDb db, StreamWriter text, CancellationToken cancellation)
    {
        var warnings = db.Rows.Where(SettledRows.OutsidePermits).Where(row => row.BatchId == id)
            .OrderBy(row => row.Line).ThenBy(row => row.Id)
            .Select(row => new { row.Line, row.PermitWarning }).AsAsyncEnumerable();
        await foreach (var warned in warnings.WithCancellation(cancellation))
        {
            await text.WriteLineAsync(string.Create(
                CultureInfo.InvariantCulture, $"{warned.Line},,,{Cell(warned.PermitWarning!)},no"));
        }
    }

    // The texts are strangers': a spreadsheet must not run a cell that begins like a formula.
    private static string Cell(string text)
    {
        var safe = text.Length > 0 && "=+-@\t\r".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
        return safe.AsSpan().ContainsAny(",\"\r\n")
            ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\""
            : safe;
    }
}
