using Accession.Core.Outcomes;
using Accession.Core.People;

namespace Accession.Server.Tracking;

/// <summary>
/// Says how a person numbers. The program proposes it from the numbers and dates and never says it by itself.
/// </summary>
public sealed class StateNumberingHabit(PersonInHand hand, FoundAnew found)
{
    public sealed record Request(long Id, string? Habit, string? How);

    /// <summary>Says it; "none" takes back what was said.</summary>
    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "state how a collector numbers", request.How);
        return hand.OnAsync(
            request.Id, door, act,
            async person =>
            {
                var refusal = HabitIn(request.Habit) is not { } said
                    ? new(RefusalKind.Invalid, "Choose how this collector numbers.")
                    : act.Reason is null
                    ? new(RefusalKind.Invalid, "Write how you know it, as \"from the numbers and dates held here\".")
                    : person.Numbers(said.Habit, act);
                if (refusal is not null)
                {
                    return [refusal];
                }

                await found.WantAsync([.. person.Written], act, cancellation);
                return [];
            },
            cancellation);
    }

    private static (NumberingHabit? Habit, bool IsSaid)? HabitIn(string? text) =>
        text == "none" ? (null, true)
        : Enum.TryParse<NumberingHabit>(text, out var habit) && Enum.IsDefined(habit) && habit.ToString() == text
            ? (habit, true)
            : null;
}
