using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;

namespace Accession.Core.FreezerLoads;

/// <summary>
/// What goes into a freezer together. Everything on its list shares what becomes of it; what is added while it runs
/// begins its clock again. There is no trace of temperatures yet, so nothing here proves that pests are dead.
/// </summary>
public sealed class FreezerLoad
{
    private readonly List<LoadEntry> _entries = [];

    private FreezerLoad()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>Its running number, without gaps.</summary>
    public int Number { get; private set; }

    /// <summary>The freezer.</summary>
    public long FreezerId { get; private set; }

    /// <summary>The freezer.</summary>
    public Freezer Freezer { get; private set; } = null!;

    /// <summary>The regime, in the edition that was chosen.</summary>
    public long RegimeId { get; private set; }

    /// <summary>The regime, in the edition that was chosen.</summary>
    public Regime Regime { get; private set; } = null!;

    /// <summary>
    /// The failed load or the one not proved that this repeats, with all that was in it; null for none.
    /// </summary>
    public long? RepeatsId { get; private set; }

    /// <summary>How it stands; computed from its entries.</summary>
    public LoadStanding Standing { get; private set; }

    /// <summary>When its clock began, or began again, in UTC; null before the lid was closed.</summary>
    public DateTime? ClockFrom { get; private set; }

    /// <summary>When it was taken out, in UTC; null while it is not.</summary>
    public DateTime? TakenOutAt { get; private set; }

    /// <summary>From when on what is in it may be opened, in UTC; null until it is taken out.</summary>
    public DateTime? MayOpenFrom { get; private set; }

    /// <summary>What happened to it, the oldest first.</summary>
    public IReadOnlyList<LoadEntry> Entries => _entries;

    /// <summary>Renewed by every verb, so that two people who change it at once cannot both save.</summary>
    public Guid Version { get; private set; }

    /// <summary>Begins the list of a load.</summary>
    /// <param name="number">The number that was taken for it.</param>
    /// <param name="freezer">The freezer.</param>
    /// <param name="regime">The regime.</param>
    /// <param name="act">The act.</param>
    public static FreezerLoad List(int number, Freezer freezer, Regime regime, Act act)
    {
        var load = new FreezerLoad { Number = number, Freezer = freezer, Regime = regime };
        load.Happened(LoadEvent.Listed, LoadStanding.Listed, act.At, act);
        return load;
    }

    /// <summary>Puts a parcel on the list, unopened or closed again.</summary>
    /// <param name="parcel">The parcel.</param>
    /// <param name="beginAgain">Whether the clock of a running load may begin again.</param>
    /// <param name="act">The act.</param>
    public Outcome<LoadItem> Add(Parcel parcel, bool beginAgain, Act act)
    {
        if (Open(beginAgain, act) is { } refusal)
        {
            return refusal;
        }

        return parcel.GoOnLoad(Id) is { } stays ? stays : LoadItem.Of(Id, parcel, act);
    }

    /// <summary>Puts a part on the list.</summary>
    /// <param name="part">The part.</param>
    /// <param name="inParcel">The parcel of this list in which it lies; null when it lies by itself.</param>
    /// <param name="beginAgain">Whether the clock of a running load may begin again.</param>
    /// <param name="act">The act.</param>
    public Outcome<LoadItem> Add(Part part, Parcel? inParcel, bool beginAgain, Act act)
    {
        if (Open(beginAgain, act) is { } refusal)
        {
            return refusal;
        }

        return part.GoOnLoad(Id) is { } stays ? stays : LoadItem.Of(Id, part, inParcel?.Id, act);
    }

    /// <summary>
    /// Puts a bundle on the list that is named by words. What is in it is not on record, so nothing inherits.
    /// </summary>
    /// <param name="bundle">What it is called.</param>
    /// <param name="batchId">The batch it is of; null when it is of none.</param>
    /// <param name="beginAgain">Whether the clock of a running load may begin again.</param>
    /// <param name="act">The act.</param>
    public Outcome<LoadItem> Add(string bundle, long? batchId, bool beginAgain, Act act)
    {
        var called = bundle.Trim();
        if (called.Length is 0 or > LoadItem.LongestBundle)
        {
            return new Refusal(RefusalKind.Invalid,
                $"Write what the bundle is called, in at most {LoadItem.LongestBundle} characters.");
        }

        return Open(beginAgain, act) is { } refusal ? refusal : LoadItem.Of(Id, called, batchId, act);
    }

    /// <summary>
    /// Takes a line off the list, since the thing never went in: only before the lid is closed. What was in the cold
    /// shares what becomes of it.
    /// </summary>
    /// <param name="item">The line.</param>
    /// <param name="parcel">The parcel of the line; null when it is none.</param>
    /// <param name="part">The part of the line; null when it is none.</param>
    /// <param name="act">The act, stored already, so that the line can name it.</param>
    public Refusal? TakeOff(LoadItem item, Parcel? parcel, Part? part, Act act)
    {
        if (Standing != LoadStanding.Listed)
        {
            return new(RefusalKind.Conflict,
                $"The lid was closed on load {Number}: what is on its list shares what becomes of it.");
        }

        if (item.TakenOffActId is not null)
        {
            return new(RefusalKind.Conflict, $"That was taken off the list of load {Number} already.");
        }

        item.TakeOff(act);
        part?.ComeOffLoad(Id);
        if (part is null)
        {
            parcel?.ComeOffLoad(Id);
        }

        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Closes the lid: the clock begins.</summary>
    /// <param name="at">When, in UTC; not after the act, not before the list was begun.</param>
    /// <param name="items">How many lines the list has.</param>
    /// <param name="act">The act.</param>
    public Refusal? CloseLid(DateTime at, int items, Act act)
    {
        if (Standing != LoadStanding.Listed)
        {
            return new(RefusalKind.Conflict, Standing == LoadStanding.Running
                ? $"The lid was closed on load {Number} already."
                : $"Load {Number} was taken out. Begin another, or repeat it.");
        }

        if (items == 0)
        {
            return new(RefusalKind.Invalid, $"Nothing is on the list of load {Number}.");
        }

        if (WhyNotThen(at, act) is { } refusal)
        {
            return refusal;
        }

        ClockFrom = at;
        Happened(LoadEvent.LidClosed, LoadStanding.Running, at, act);
        return null;
    }

    /// <summary>Takes it out. Everything stays sealed until it is as warm as the room.</summary>
    /// <param name="at">When, in UTC; not after the act, not before the clock began.</param>
    /// <param name="act">The act.</param>
    public Refusal? TakeOut(DateTime at, Act act)
    {
        if (Standing != LoadStanding.Running)
        {
            return new(RefusalKind.Conflict, Standing == LoadStanding.Listed
                ? $"The lid was never closed on load {Number}."
                : $"Load {Number} was taken out already.");
        }

        if (WhyNotThen(at, act) is { } refusal)
        {
            return refusal;
        }

        (TakenOutAt, MayOpenFrom) = (at, at.AddHours(Regime.OpenAfterHours));
        Happened(LoadEvent.TakenOut, LoadStanding.TakenOut, at, act);
        return null;
    }

    /// <summary>Lets it in under a house rule. That proves nothing, and is shown as that.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="begun">The day here on which the clock began.</param>
    /// <param name="act">The act.</param>
    /// <returns>What everything on the list is cleared by, or why not.</returns>
    public Outcome<Clearance> ReleaseUnder(HouseRule rule, DateOnly begun, Act act)
    {
        if (WhyNotSettled(LoadStanding.TakenOut, LoadStanding.NotProved) is { } refusal)
        {
            return refusal;
        }

        if (rule.WhyNot(Regime.ThresholdCelsius, begun, TakenOutAt!.Value - ClockFrom!.Value) is { } short_)
        {
            return short_;
        }

        // The stricter of the two: a rule does not open what the regime keeps sealed.
        var open = TakenOutAt.Value.AddHours(Math.Max(rule.OpenAfterHours, Regime.OpenAfterHours));
        MayOpenFrom = open;
        Happened(LoadEvent.UnderHouseRule, LoadStanding.UnderHouseRule, act.At, act, rule.Id);
        return new Clearance(TakenOutAt.Value, ClearedBy.HouseRule, open, Id, rule.Id);
    }

    /// <summary>Lets it in without proof: for curators, with a reason. A failed load is repeated instead.</summary>
    /// <param name="by">Who lets it in.</param>
    /// <param name="act">The act with its reason.</param>
    /// <returns>What everything on the list is cleared by, or why not.</returns>
    public Outcome<Clearance> Waive(Actor by, Act act)
    {
        if (Waiver.WhyNot(by, act) is { } refusal)
        {
            return refusal;
        }

        if (WhyNotSettled(LoadStanding.TakenOut, LoadStanding.NotProved) is { } stays)
        {
            return stays;
        }

        Happened(LoadEvent.Waived, LoadStanding.Waived, act.At, act);
        return new Clearance(TakenOutAt!.Value, ClearedBy.Waiver, MayOpenFrom!.Value, Id, null);
    }

    /// <summary>Records that it failed, or that nothing is proved. Nothing on its list is cleared.</summary>
    /// <param name="failed">Whether it got warm or was never cold enough; otherwise nobody knows.</param>
    /// <param name="act">The act with its reason.</param>
    public Refusal? Record(bool failed, Act act)
    {
        if (act.Reason is not { Length: > 0 and <= Waiver.LongestReason })
        {
            return new(RefusalKind.Invalid,
                $"Say in at most {Waiver.LongestReason} characters what happened, such as: the power was off.");
        }

        if (WhyNotSettled(failed ? [LoadStanding.TakenOut, LoadStanding.NotProved] : [LoadStanding.TakenOut])
            is { } refusal)
        {
            return refusal;
        }

        var (what, stands) = failed
            ? (LoadEvent.Failed, LoadStanding.Failed)
            : (LoadEvent.NotProved, LoadStanding.NotProved);
        Happened(what, stands, act.At, act);
        return null;
    }

    /// <summary>
    /// Begins another load with all that was in this one: a failed load is repeated in full, since nobody can tell what
    /// of it was cold (common practice, no published source).
    /// </summary>
    /// <param name="number">The number that was taken for the other load.</param>
    /// <param name="act">The act.</param>
    public Outcome<FreezerLoad> Repeat(int number, Act act)
    {
        if (Standing is not (LoadStanding.Failed or LoadStanding.NotProved))
        {
            return new Refusal(RefusalKind.Conflict,
                $"Load {Number} is repeated when it failed or is not proved. Record that first.");
        }

        Version = Guid.NewGuid();
        var again = List(number, Freezer, Regime, act);
        again.RepeatsId = Id;
        return again;
    }

    // Whatever is added opens the lid, and what was cold gets warm.
    private Refusal? Open(bool beginAgain, Act act)
    {
        switch (Standing)
        {
            case LoadStanding.Listed:
                Version = Guid.NewGuid();
                return null;
            case LoadStanding.Running when beginAgain:
                ClockFrom = act.At;
                Happened(LoadEvent.ClockBeganAgain, LoadStanding.Running, act.At, act);
                return null;
            case LoadStanding.Running:
                return new(RefusalKind.Conflict,
                    $"The lid is closed on load {Number}. Adding opens it, and the clock begins again for everything "
                    + "in it: say so, or put it in another load.");
            default:
                return new(RefusalKind.Conflict, $"Load {Number} was taken out: nothing is added to it any more.");
        }
    }

    private Refusal? WhyNotThen(DateTime at, Act act)
    {
        var last = _entries.Where(entry => entry.What != LoadEvent.Listed).Select(entry => entry.At)
            .DefaultIfEmpty(DateTime.MinValue).Max();
        return at > act.At
            ? new(RefusalKind.Invalid, "That time has not come yet. Leave it empty for now.")
            : at < last
                ? new(RefusalKind.Invalid, $"That is before the last thing that happened to load {Number}.")
                : null;
    }

    private Refusal? WhyNotSettled(params LoadStanding[] allowed)
    {
        if (allowed.Contains(Standing))
        {
            return null;
        }

        return new(RefusalKind.Conflict, Standing switch
        {
            LoadStanding.Listed or LoadStanding.Running => $"Take load {Number} out first.",
            LoadStanding.Failed => $"Load {Number} failed. Repeat it with all that was in it.",
            LoadStanding.NotProved => $"Load {Number} is recorded as not proved already.",
            _ => string.Create(CultureInfo.InvariantCulture, $"Load {Number} is settled already."),
        });
    }

    private void Happened(LoadEvent what, LoadStanding stands, DateTime at, Act act, long? houseRuleId = null)
    {
        _entries.Add(new LoadEntry(what, at, act, houseRuleId));
        Standing = stands;
        Version = Guid.NewGuid();
    }

    /// <summary>Clears what is on a line of the list, or takes it off the open list when nothing is cleared.</summary>
    /// <param name="item">The parcel.</param>
    /// <param name="clearance">By what; null when the load cleared nothing.</param>
    /// <param name="act">The act.</param>
    public void Settle(Parcel item, Clearance? clearance, Act act)
    {
        item.ComeOffLoad(Id);
        if (clearance is not null)
        {
            item.Clear(clearance, act);
        }
    }

    /// <summary>Clears what is on a line of the list, or takes it off the open list when nothing is cleared.</summary>
    /// <param name="item">The part.</param>
    /// <param name="line">Its line on the list, which says in which parcel it lay.</param>
    /// <param name="clearance">By what; null when the load cleared nothing.</param>
    /// <param name="plan">The step plan the part follows; null when it follows none.</param>
    /// <param name="act">The act.</param>
    public void Settle(Part item, LoadItem line, Clearance? clearance, StepPlan? plan, Act act)
    {
        item.ComeOffLoad(Id);
        if (clearance is not null)
        {
            item.Clear(clearance with { ParcelId = line.ParcelId }, plan, act);
        }
    }
}
