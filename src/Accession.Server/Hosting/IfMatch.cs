using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Net.Http.Headers;

namespace Accession.Server.Hosting;

/// <summary>A change of one thing says which version of it was seen.</summary>
internal static class IfMatch
{
    /// <summary>
    /// Makes the act hang on the version that the request names, or says why it cannot: no version was named. What was
    /// answered under its key before is answered again whatever became of the thing since.
    /// </summary>
    /// <param name="context">The request.</param>
    /// <param name="db">The register, whose next act this is.</param>
    /// <param name="version">The version now; nothing where the thing is not there, which the operation says.</param>
    public static Refused? WhyNoVersion(this HttpContext context, AccessionDb db, IQueryable<Guid> version) =>
        WhyNoTag(context, db, async (seen, cancellation) =>
            await version.Select(v => (Guid?)v).FirstOrDefaultAsync(cancellation) is not { } now
                || seen.Any(tag => IsOf(tag, now)));

    /// <summary>
    /// Makes the act hang on all that was said of a thing that has no version, or says why it cannot.
    /// </summary>
    /// <param name="context">The request.</param>
    /// <param name="db">The register, whose next act this is.</param>
    /// <param name="held">The thing, held: whoever changes it as well comes before or after.</param>
    /// <param name="shown">
    /// What is said of it now, as its tag was made of; nothing where it is not there, which the operation says.
    /// </param>
    public static Refused? WhyNotAsSeen<T>(
        this HttpContext context, AccessionDb db, IQueryable<object> held, Func<CancellationToken, Task<T?>> shown)
        where T : class => WhyNoTag(context, db, async (seen, cancellation) =>
        {
            await held.AsNoTracking().FirstOrDefaultAsync(cancellation);
            return await shown(cancellation) is not { } now
                || seen.Any(tag => tag.Compare(Tagged<T>.TagOf(now), useStrongComparison: true));
        });

    private static Refused? WhyNoTag(
        HttpContext context, AccessionDb db,
        Func<IList<EntityTagHeaderValue>, CancellationToken, Task<bool>> isSoStill)
    {
        if (context.Request.Headers.IfMatch.Count == 0)
        {
            return new(Problem.Of(StatusCodes.Status428PreconditionRequired,
                "Send the header If-Match with the ETag that came with what you saw, so that nobody's change is "
                + "lost. Nothing was done."));
        }

        var seen = context.Request.GetTypedHeaders().IfMatch;
        db.Provided(async cancellation =>
            seen.Contains(EntityTagHeaderValue.Any) || await isSoStill(seen, cancellation)
                ? null
                : new(RefusalKind.Outdated,
                    "This was changed since you looked at it. Nothing was done; look again and decide anew."));
        return null;
    }

    private static bool IsOf(EntityTagHeaderValue tag, Guid version) =>
        !tag.IsWeak && tag.Tag.AsSpan().Trim('"').StartsWith(version.ToString("N"), StringComparison.Ordinal);
}

/// <summary>A door that asks which version of a thing was seen.</summary>
/// <param name="IsAlways">False where the door may also make a new thing, of which nothing was seen.</param>
internal sealed record AsksVersion(bool IsAlways = true);
