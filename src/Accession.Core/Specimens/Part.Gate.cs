using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

public sealed partial class Part
{
    /// <summary>
    /// How long a move to the outside, or from there, can be taken back: after that it may really have been outside.
    /// </summary>
    public static readonly TimeSpan CrossingCanBeTakenBack = TimeSpan.FromMinutes(10);

    /// <summary>
    /// Takes the last move back, since the part never went there: it stands where it stood before. What happened to it
    /// in between stays, and so nothing is taken back that something else was built on.
    /// </summary>
    /// <param name="before">Where it stood before; null where nobody had put it anywhere.</param>
    /// <param name="first">When it first came from outside; null for what was here before its record.</param>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act that takes it back, stored already, so that the entry can name it.</param>
    public Refusal? MoveBack(Place? before, DateTime? first, StepPlan? plan, Act act)
    {
        var counting = _places.Where(entry => entry.TakenBackActId is null).OrderBy(entry => entry.Id).ToList();
        if (counting is [])
        {
            return new(RefusalKind.Conflict, $"Nobody put {Code} anywhere, so there is nothing to take back.");
        }

        var last = counting[^1];
        var earlier = counting.SkipLast(1).ToList();
        if (earlier.LastOrDefault()?.PlaceId != before?.Id)
        {
            throw new ArgumentException("That is not the place it stood in before.", nameof(before));
        }

        if (LoadId is not null || _clearances.Any(one => one.ActId > last.ActId))
        {
            return new(RefusalKind.Conflict,
                $"{Code} was put in a freezer load since, or cleared. Move it, rather than taking the move back.");
        }

        if (last.CrossedOutside && act.At - last.Act.At > CrossingCanBeTakenBack)
        {
            return new(RefusalKind.NotAllowed, string.Create(CultureInfo.InvariantCulture,
                $"{Code} went outside or came from there more than {CrossingCanBeTakenBack.TotalMinutes:0} minutes "
                + $"ago. Move it, and it is treated again."));
        }

        last.TakeBack(act);
        (PlaceId, Zone) = (before?.Id, before?.Zone ?? (IsFromBefore ? Zone.CollectionRoom : Zone.Quarantine));
        if (last.CrossedOutside)
        {
            CameFromOutsideAt = earlier.LastOrDefault(entry => entry.CrossedOutside)?.Act.At ?? first;
            if (BeforeAct(Step.Treated, last.ActId) is { Mark: not StepMark.NeededAgain } was)
            {
                _steps.Add(new StepEntry(act, Step.Treated, was.Mark));
            }
        }

        Settle(plan);
        return null;
    }

    private StepEntry? BeforeAct(Step step, long actId) =>
        InOrder.LastOrDefault(entry => entry.Step == step && entry.Id != 0 && entry.ActId < actId);

    private Refusal? WhyNotIn(bool comesFromOutside, DateTime now)
    {
        if (comesFromOutside)
        {
            return new(RefusalKind.NotAllowed,
                $"{Code} comes from outside: bring it to quarantine and treat it before it goes in.");
        }

        if (!IsCleared)
        {
            return new(RefusalKind.NotAllowed, ClearedAt is null
                ? $"{Code} is untreated, and nothing goes to the collection room untreated. Put it in a freezer load."
                : $"{Code} was treated before it last came from outside. Treat it again before it goes in.");
        }

        if (now < MayOpenFrom)
        {
            var hours = (int)Math.Ceiling((MayOpenFrom.Value - now).TotalHours);
            return new(RefusalKind.NotAllowed, string.Create(CultureInfo.InvariantCulture,
                $"{Code} is sealed for {hours} more {(hours == 1 ? "hour" : "hours")}, to get as warm as the room."));
        }

        return null;
    }
}
