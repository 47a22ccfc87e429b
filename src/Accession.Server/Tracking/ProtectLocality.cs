using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>Protects the place of a gathering for all its sheets, or lifts the protection, with a reason.</summary>
public sealed class ProtectLocality(AccessionDb db, ProtectedPlaces places, TimeProvider clock)
{
    public sealed record Request(long GatheringId, SensitivityCategory? Category, DateOnly? ReviewOn, string? Reason);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "protect a place", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (!door.By.MaySeeExactLocalities)
                {
                    return new Refusal(RefusalKind.NotAllowed, "Protecting a place is for curators.");
                }

                if (request.Category is not { } category || !Enum.IsDefined(category))
                {
                    return new Refusal(RefusalKind.Invalid, "Choose how much of the place everyone may know.");
                }

                if (category != SensitivityCategory.NotSensitive && request.ReviewOn is null)
                {
                    return new Refusal(RefusalKind.Invalid, "Write when the decision is to be looked at again.");
                }

                var gathering = await db.Gatherings
                    .SingleOrDefaultAsync(g => g.Id == request.GatheringId, cancellation);
                return gathering is null
                    ? new Refusal(RefusalKind.NotFound, "That gathering is not in the register.")
                    : await places.ProtectAsync(gathering, new(category, request.ReviewOn), act, cancellation)
                        is { } refusal
                        ? refusal
                        : gathering.Label;
            },
            cancellation);
    }
}
