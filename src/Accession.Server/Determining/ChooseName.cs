using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Determining;

/// <summary>A curator lets an opinion count from now on, or keeps it beside the name that counts.</summary>
public sealed class ChooseName(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long SpecimenId, long DeterminationId, bool Counts, string? Reason);

    /// <summary>Answers the name that counts afterwards.</summary>
    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(
            door, request.Counts ? "let a determination count" : "keep a determination beside the current name",
            clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Contains(Role.Curator))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Which name counts is for curators to say.");
                }

                var specimen = await db.Specimens.AsSplitQuery()
                    .SingleOrDefaultAsync(s => s.Id == request.SpecimenId, cancellation);
                return specimen is null
                    ? new Refusal(RefusalKind.NotFound, "That sheet is not in the register.")
                    : specimen.Choose(request.DeterminationId, request.Counts, act) is { } refusal
                        ? refusal
                        : specimen.CurrentName;
            },
            cancellation);
    }
}
