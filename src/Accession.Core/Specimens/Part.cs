using Accession.Core.Outcomes;
using Accession.Core.Parcels;

namespace Accession.Core.Specimens;

/// <summary>
/// One physical piece of a specimen. Custody, steps, treatment and places attach to it. Most specimens have one, whose
/// code is the bare catalog number. Untreated until it was cleared: <see cref="Move"/> is the gate that every door goes
/// through.
/// </summary>
public sealed partial class Part
{
    private readonly List<CustodyEntry> _custody = [];
    private readonly List<StepEntry> _steps = [];
    private readonly List<ClearanceEntry> _clearances = [];
    private readonly List<PlaceEntry> _places = [];

    private Part()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The specimen it is a piece of.</summary>
    public long SpecimenId { get; private set; }

    /// <summary>What is scanned from it.</summary>
    public string Code { get; private set; } = "";

    /// <summary>Which of those it is from which this code is scanned: as <see cref="Specimen.Repeat"/>.</summary>
    public int Repeat { get; private set; }

    /// <summary>
    /// Whether it was in the collection before its record: it was taken over, and no step is asked of it.
    /// </summary>
    public bool IsFromBefore { get; private set; }

    /// <summary>Who has it now; computed from the custody entries.</summary>
    public string Holder { get; private set; } = "";

    /// <summary>Whether its number was scanned back against its record; computed from the steps.</summary>
    public bool IsNumbered { get; private set; }

    /// <summary>Who had it, since when, the oldest first.</summary>
    public IReadOnlyList<CustodyEntry> Custody => _custody;

    /// <summary>What was done to it, the oldest first.</summary>
    public IReadOnlyList<StepEntry> Steps => _steps;

    /// <summary>What cleared it, the oldest first.</summary>
    public IReadOnlyList<ClearanceEntry> Clearances => _clearances;

    /// <summary>Where it stood, the oldest first; empty while nobody put it anywhere.</summary>
    public IReadOnlyList<PlaceEntry> Places => _places;

    /// <summary>The edition of the step plan it follows; null when no step is asked of it.</summary>
    public long? PlanId { get; private set; }

    /// <summary>The first step that waits; computed from the plan and the steps. Null when nothing waits.</summary>
    public Step? NextStep { get; private set; }

    /// <summary>The parcel out of which it was numbered; null when that is not known.</summary>
    public long? ParcelId { get; private set; }

    /// <summary>
    /// When it last came from outside, in UTC: with its parcel, with its number, or by a move. Null for a sheet that
    /// was here before its record and never left.
    /// </summary>
    public DateTime? CameFromOutsideAt { get; private set; }

    /// <summary>When it was last cleared, in UTC; computed from the clearances. Null while it is untreated.</summary>
    public DateTime? ClearedAt { get; private set; }

    /// <summary>By what it was cleared.</summary>
    public ClearedBy? ClearedBy { get; private set; }

    /// <summary>From when on it may be opened, in UTC.</summary>
    public DateTime? MayOpenFrom { get; private set; }

    /// <summary>The freezer load whose list it stands on and that is not settled; null when it is on none.</summary>
    public long? LoadId { get; private set; }

    /// <summary>The place where it stands; null while nobody put it anywhere.</summary>
    public long? PlaceId { get; private set; }

    /// <summary>
    /// The zone it is in: quarantine from the day it is numbered; the collection room where it was here before.
    /// </summary>
    public Zone Zone { get; private set; }

    /// <summary>
    /// Whether what cleared it counts: it was cleared after it last came from outside, or never left.
    /// </summary>
    public bool IsCleared => CameFromOutsideAt is null ? IsFromBefore || ClearedAt is not null
        : ClearedAt > CameFromOutsideAt;

    /// <summary>Renewed by every verb, so that two people who change it at once cannot both save.</summary>
    public Guid Version { get; private set; }

    internal static Part Receive(
        string code, string holder, bool proven, StepPlan? plan, Parcel? parcel, Act act)
    {
        var part = new Part
        {
            Code = code,
            PlanId = plan?.Id,
            ParcelId = parcel?.Id,
            CameFromOutsideAt = parcel?.CameAt ?? act.At,
        };
        part._custody.Add(new CustodyEntry(act, holder));
        part.Holder = holder;
        if (proven)
        {
            part.ScanBack(plan, act);
        }

        if (parcel is { ClearedAt: { } at, ClearedBy: { } by, MayOpenFrom: { } open })
        {
            var last = parcel.Clearances.Last(one => one.At == at);
            part.Clear(new(at, by, open, last.LoadId, last.HouseRuleId, parcel.Id), plan, act);
        }

        part.Settle(plan);
        return part;
    }

    internal void WasHereBefore(int repeat) =>
        (IsFromBefore, Repeat, CameFromOutsideAt, Zone, NextStep) = (true, repeat, null, Zone.CollectionRoom, null);

    /// <summary>Proves that the number on the sheet is the number on record: the step "numbered" is done.</summary>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act of scanning.</param>
    /// <returns>A conflict when it was proven before.</returns>
    public Refusal? ScanBack(StepPlan? plan, Act act)
    {
        if (IsNumbered)
        {
            return new(RefusalKind.Conflict, $"{Code} was scanned back already.");
        }

        _steps.Add(new StepEntry(act, Step.Numbered));
        IsNumbered = true;
        Settle(plan);
        return null;
    }

    /// <summary>Puts it on the list of a load, or says why it cannot be there.</summary>
    internal Refusal? GoOnLoad(long loadId)
    {
        if (LoadId is not null)
        {
            return new(RefusalKind.Conflict, $"{Code} stands on the list of a load that is not settled.");
        }

        if (Zone == Zone.Outside)
        {
            return new(RefusalKind.Conflict, $"{Code} is outside. Bring it to quarantine first.");
        }

        (LoadId, Version) = (loadId, Guid.NewGuid());
        return null;
    }

    /// <summary>That load is settled; on the list of a later one it stays.</summary>
    internal void ComeOffLoad(long loadId) => (LoadId, Version) = (LoadId == loadId ? null : LoadId, Guid.NewGuid());

    /// <summary>
    /// Clears it, so that it may come to the collection room when it may be opened. The step "treated" is done, or
    /// waived. What the cold had ended before it came from outside does not count at the gate.
    /// </summary>
    /// <param name="clearance">By what.</param>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act.</param>
    internal void Clear(Clearance clearance, StepPlan? plan, Act act)
    {
        _clearances.Add(new ClearanceEntry(clearance, act));
        if (ClearedAt is null || clearance.At >= ClearedAt)
        {
            (ClearedAt, ClearedBy, MayOpenFrom) = (clearance.At, clearance.By, clearance.MayOpenFrom);
        }

        if (CameFromOutsideAt is null || clearance.At > CameFromOutsideAt)
        {
            _steps.Add(new StepEntry(act, Step.Treated, clearance.By == Specimens.ClearedBy.Waiver
                ? StepMark.Waived
                : StepMark.Done));
        }

        Settle(plan);
    }

    /// <summary>Lets it in untreated: for curators, with a reason, and on the trail for good.</summary>
    /// <param name="by">Who lets it in.</param>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act with its reason.</param>
    public Refusal? Waive(Actor by, StepPlan? plan, Act act)
    {
        if (Waiver.WhyNot(by, act) is { } refusal)
        {
            return refusal;
        }

        if (LoadId is not null)
        {
            return new(RefusalKind.Conflict, $"{Code} stands on the list of a load: settle the load first.");
        }

        if (IsCleared)
        {
            return new(RefusalKind.Conflict, $"{Code} may come in already: there is nothing to waive.");
        }

        Clear(new(act.At, Specimens.ClearedBy.Waiver, act.At, null, null), plan, act);
        return null;
    }

    /// <summary>
    /// Puts it in a place. The gate: nothing goes to the collection room that was not cleared after it last came from
    /// outside, and nothing before it may be opened. Going outside and coming from there asks for treatment anew.
    /// </summary>
    /// <param name="place">The place.</param>
    /// <param name="plan">The step plan it follows; null when it follows none.</param>
    /// <param name="act">The act: who, when and why. Its time is what the gate looks at.</param>
    public Refusal? Move(Place place, StepPlan? plan, Act act)
    {
        if (LoadId is not null)
        {
            return new(RefusalKind.Conflict,
                $"{Code} stands on the list of a freezer load that is not settled. It stays until that is.");
        }

        if (PlaceId == place.Id)
        {
            return new(RefusalKind.Conflict, $"{Code} stands in {place.Name} already.");
        }

        var crosses = Zone == Zone.Outside || place.Zone == Zone.Outside;
        if (place.Zone == Zone.CollectionRoom && WhyNotIn(crosses, act.At) is { } refusal)
        {
            return refusal;
        }

        _places.Add(new PlaceEntry(place, crosses, act));
        (PlaceId, Zone) = (place.Id, place.Zone);
        if (crosses)
        {
            CameFromOutsideAt = act.At;
            _steps.Add(new StepEntry(act, Step.Treated, StepMark.NeededAgain));
        }

        Settle(plan);
        return null;
    }

    // Where no plan is followed, only what came from outside waits, to be treated.
    private void Settle(StepPlan? plan)
    {
        NextStep = plan is not null ? plan.Next(InOrder)
            : LastOf(Step.Treated)?.Mark == StepMark.NeededAgain ? Step.Treated
            : null;
        Version = Guid.NewGuid();
    }
}
