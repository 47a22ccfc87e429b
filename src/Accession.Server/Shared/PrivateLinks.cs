using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Shared;

/// <summary>
/// Makes and withdraws the private link of a receipt: of a parcel at the bench, of a batch by curators.
/// </summary>
public sealed class PrivateLinks(AccessionDb db, TimeProvider clock)
{
    /// <summary>A parcel or a batch, one of them.</summary>
    public sealed record Subject(long? ParcelId, long? BatchId);

    /// <summary>A link that opens, as those see it who may withdraw it.</summary>
    public sealed record Open(long Id, string By, DateTime At);

    /// <summary>Makes a link; answers its token, which nobody can ask for again.</summary>
    public Task<Outcome<string>> MakeAsync(Subject subject, Door asked, CancellationToken cancellation)
    {
        // Without the key the answer, which is the secret, is not stored with the act.
        var door = asked with { RequestKey = null };
        var act = Act.Of(door, "make a private link", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (WhyNot(subject, door.By) is { } refusal)
                {
                    return refusal;
                }

                var isThere = subject.ParcelId is { } parcel
                    ? await db.Parcels.AnyAsync(p => p.Id == parcel, cancellation)
                    : await db.Batches.AnyAsync(b => b.Id == subject.BatchId, cancellation);
                if (!isThere)
                {
                    return new Refusal(RefusalKind.NotFound, "That parcel or batch is not here.");
                }

                var (link, token) = PrivateLink.To(subject.ParcelId, subject.BatchId, act);
                db.Add(link);
                return token;
            },
            cancellation);
    }

    /// <summary>Withdraws a link of this parcel or batch.</summary>
    public Task<Outcome<long>> WithdrawAsync(Subject subject, long id, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "withdraw a private link", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<long>(
            door, act,
            async () =>
            {
                if (WhyNot(subject, door.By) is { } refusal)
                {
                    return refusal;
                }

                var link = await Of(subject).SingleOrDefaultAsync(l => l.Id == id, cancellation);
                return link is null
                    ? new Refusal(RefusalKind.NotFound, "That link is not here.")
                    : link.End(act) is { } ended ? ended : link.Id;
            },
            cancellation);
    }

    /// <summary>Those that open, the oldest first.</summary>
    public async Task<IReadOnlyList<Open>> OpenAsync(Subject subject, CancellationToken cancellation) =>
        await Of(subject).Where(l => l.EndedActId == null).OrderBy(l => l.Id)
            .Select(l => new Open(l.Id, l.Act.ActorName, l.Act.At)).ToListAsync(cancellation);

    /// <summary>What a token leads to; null where it opens nothing, whatever the reason.</summary>
    public async Task<Subject?> SubjectAsync(string token, CancellationToken cancellation)
    {
        var hash = SignInLink.Hash(token);
        return await db.PrivateLinks.Where(l => l.TokenHash == hash && l.EndedActId == null)
            .Select(l => new Subject(l.ParcelId, l.BatchId)).SingleOrDefaultAsync(cancellation);
    }

    private IQueryable<PrivateLink> Of(Subject subject) => db.PrivateLinks.Where(
        l => l.ParcelId == subject.ParcelId && l.BatchId == subject.BatchId);

    private static Refusal? WhyNot(Subject subject, Actor by) => by.Roles.Contains(Role.Curator)
        || (subject.ParcelId is not null && by.Roles.Contains(Role.Technician))
            ? null
            : new(RefusalKind.NotAllowed, "Private links are made at the bench for parcels, by curators for batches.");
}
