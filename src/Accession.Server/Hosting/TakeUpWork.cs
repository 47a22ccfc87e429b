using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Hosting;

/// <summary>
/// Takes up work at a bench by badge, in the session of somebody who is signed in: the scans after it bear the name of
/// the badge's holder. The badge that was in force there before ends.
/// </summary>
public sealed class TakeUpWork(AccessionDb db, BadgeHolders holders, TimeProvider clock)
{
    /// <param name="Code">The badge's code, which stands in no entry and no answer.</param>
    /// <param name="Key">The key of the scan, by which the scans after it name the shift.</param>
    /// <param name="ScannedAt">When it was scanned, in UTC.</param>
    /// <param name="Before">The shift that this browser had before; null for none.</param>
    public sealed record Request(string Code, string Key, DateTime ScannedAt, string? Before);

    /// <summary>Answers the name of the badge's holder.</summary>
    public async Task<Outcome<string>> RunAsync(Request request, Actor signedIn, CancellationToken cancellation)
    {
        var hash = Badge.Hash(request.Code);
        var badge = await db.Badges.AsNoTracking().Where(b => b.CodeHash == hash && b.WithdrawnAt == null)
            .Select(b => new { b.Id, b.AccountId }).SingleOrDefaultAsync(cancellation);
        var holder = badge is null ? null : await holders.FindAsync(badge.AccountId, cancellation);
        if (badge is null || holder is null)
        {
            return new Refusal(RefusalKind.NotFound,
                "This badge is not known here, or was withdrawn, or its holder does no work at a bench any more. "
                + "Nothing is done in anybody's name until a badge is scanned that counts, or “hand back”.");
        }

        var act = Act.Of(
            new Door(holder, request.Key), "take up work by badge", clock.GetUtcNow().UtcDateTime,
            string.Create(CultureInfo.InvariantCulture, $"where {signedIn.Name} is signed in"));
        return await db.CarryOutAsync<string>(
            new Door(holder, request.Key), act,
            async () =>
            {
                await db.BenchShifts
                    .Where(s => s.SignedInId == signedIn.Id && s.Key == request.Before && s.EndedAt == null)
                    .ExecuteUpdateAsync(
                        row => row.SetProperty(s => s.EndedAt, request.ScannedAt), cancellation);
                var known = await db.Badges.SingleAsync(b => b.Id == badge.Id, cancellation);
                db.Add(BenchShift.Begin(request.Key, signedIn.Id!, known, request.ScannedAt, act));
                return holder.Name;
            },
            cancellation);
    }
}
