using Accession.Core.Batches;
using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Whoever sends something, by the name that a curator writes: known, or new.</summary>
internal static class NamedSources
{
    private const int LongestName = 200;

    /// <param name="db">The register; a new source is added to it.</param>
    /// <param name="written">The name.</param>
    /// <param name="what">What is sent, such as "the list".</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<Outcome<Source>> OfAsync(
        AccessionDb db, string? written, string what, CancellationToken cancellation)
    {
        var name = written?.Trim() ?? "";
        if (name.Length is 0 or > LongestName)
        {
            return new Refusal(RefusalKind.Invalid, $"Write who sends {what}: a collector, a project or a herbarium.");
        }

        var folded = Source.Fold(name);
        var source = await db.Sources.SingleOrDefaultAsync(s => s.FoldedName == folded, cancellation);
        if (source is null)
        {
            source = Source.Named(name);
            db.Add(source);
        }

        return source;
    }
}
