using Accession.Core.Accessions;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>
/// Hands a paper out as it came, to be saved and never to be shown in the page: strangers made it.
/// </summary>
internal static class PaperDownload
{
    // Whoever opens it from the address all the same gets a document that may do nothing.
    private const string Sandbox = "default-src 'none'; sandbox";

    public static async Task<IResult> DownloadAsync(
        long id, long paperId, AccessionDb db, PaperFiles files, HttpResponse response, CancellationToken cancellation)
    {
        var paper = await db.Papers.Where(p => p.Id == paperId && p.BatchId == id)
            .Select(p => new { p.FileName, p.Type, p.Sha256 }).SingleOrDefaultAsync(cancellation);
        if (paper is null || !File.Exists(files.PathOf(paper.Sha256)))
        {
            return TypedResults.NotFound();
        }

        response.Headers.ContentSecurityPolicy = Sandbox;
        response.Headers.XContentTypeOptions = "nosniff";
        response.Headers.CacheControl = "no-store";
        // The framework writes the name as RFC 6266 and RFC 8187 want it, and "attachment" before it.
        return TypedResults.PhysicalFile(
            files.PathOf(paper.Sha256), TypeOf(paper.Type), Safe(paper.FileName, paper.Type));
    }

    private static string TypeOf(PaperType type) => type switch
    {
        PaperType.Pdf => "application/pdf",
        PaperType.Jpeg => "image/jpeg",
        PaperType.Png => "image/png",
        PaperType.Tiff => "image/tiff",
        PaperType.Text => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    };

    // The ending follows the content: what was called deed.exe and is a picture is saved as deed.exe.png.
    private static string Safe(string fileName, PaperType type)
    {
        var name = string.Concat(fileName.Select(c => char.IsControl(c) || "\"\\/:*?<>|".Contains(c) ? '_' : c));
        var endings = type switch
        {
            PaperType.Pdf => new[] { ".pdf" },
            PaperType.Jpeg => [".jpg", ".jpeg"],
            PaperType.Png => [".png"],
            PaperType.Tiff => [".tif", ".tiff"],
            _ => [".txt"],
        };
        return endings.Any(ending => name.EndsWith(ending, StringComparison.OrdinalIgnoreCase))
            ? name
            : name + endings[0];
    }
}
