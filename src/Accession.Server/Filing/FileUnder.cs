using Accession.Core.Outcomes;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Filing;

/// <summary>Says under which name a sheet lies in the cabinet.</summary>
public sealed class FileUnder(AccessionDb db, TimeProvider clock)
{
    public sealed record Request(long SpecimenId, string? Name);

    /// <summary>Answers the name under which it lies.</summary>
    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "say under which name a sheet is filed", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (!door.By.Roles.Overlaps([Role.Curator, Role.Technician]))
                {
                    return new Refusal(RefusalKind.NotAllowed, "Filing is for technicians and curators.");
                }

                var specimen = await db.Specimens.AsSplitQuery()
                    .SingleOrDefaultAsync(s => s.Id == request.SpecimenId, cancellation);
                return specimen is null
                    ? new Refusal(RefusalKind.NotFound, "That sheet is not in the register.")
                    : specimen.FileAs(request.Name, act) is { } refusal
                        ? refusal
                        : specimen.FiledAs;
            },
            cancellation);
    }
}
