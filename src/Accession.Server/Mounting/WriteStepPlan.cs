using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// Writes a step plan down: which steps sheets need, in which order, and what must precede what. Sheets that are
/// numbered from then on follow it; those before keep the one they began with.
/// </summary>
public sealed class WriteStepPlan(AccessionDb db, TimeProvider clock)
{
    private const int LongestReason = 500;

    /// <param name="Steps">The steps in order, each with what must be done before it.</param>
    /// <param name="SeriesId">The series whose sheets follow it; null for all that have no plan of their own.</param>
    /// <param name="Reason">Why it is changed; may be empty.</param>
    public sealed record Request(IReadOnlyList<Planned> Steps, long? SeriesId, string? Reason);

    /// <param name="Step">The step.</param>
    /// <param name="After">What must be done or waived before.</param>
    public sealed record Planned(Step Step, IReadOnlyList<Step> After);

    /// <summary>Answers the number of the edition.</summary>
    public Task<Outcome<int>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "write a step plan", clock.GetUtcNow().UtcDateTime, request.Reason);
        return db.CarryOutAsync(door, act, () => WriteAsync(request, door.By, act, cancellation), cancellation);
    }

    private async Task<Outcome<int>> WriteAsync(
        Request request, Actor by, Act act, CancellationToken cancellation)
    {
        if (!by.Roles.Overlaps([Role.Curator, Role.Administrator]))
        {
            return new Refusal(RefusalKind.NotAllowed, "The step plan is for curators and administrators to write.");
        }

        if (act.Reason?.Length > LongestReason)
        {
            return new Refusal(RefusalKind.Invalid, $"Say why in at most {LongestReason} characters.");
        }

        if (request.SeriesId is { } series
            && !await db.Series.AnyAsync(s => s.Id == series && s.Use == SeriesUse.Specimens, cancellation))
        {
            return new Refusal(RefusalKind.NotFound, "Choose a series whose numbers go on sheets.");
        }

        var last = await db.StepPlans.Where(p => p.Kind == StepPlan.Sheet).MaxAsync(p => p.Edition, cancellation);
        var plan = StepPlan.Write(
            StepPlan.Sheet, last + 1, [.. request.Steps.Select(one => (one.Step, one.After))], act, request.SeriesId);
        if (plan.IsRefused)
        {
            return plan.Refusals.ToList();
        }

        db.Add(plan.Value);
        return plan.Value.Edition;
    }
}
