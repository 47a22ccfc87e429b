using System.Globalization;
using Accession.Core.FreezerLoads;
using Accession.Core.Specimens;

namespace Accession.Server.Shared;

/// <summary>
/// What treatment is called on pages. Without a trace of temperatures nothing is ever said to be proved.
/// </summary>
public static class TreatmentWords
{
    public static string Of(ClearedBy by) => by switch
    {
        ClearedBy.HouseRule => "Let in under a house rule, not proved",
        ClearedBy.Waiver => "Let in by a curator, not proved",
        _ => "By a verdict",
    };

    /// <summary>The same for a narrow table.</summary>
    public static string InShort(ClearedBy by) => by switch
    {
        ClearedBy.HouseRule => "House rule, not proved",
        ClearedBy.Waiver => "Waived, not proved",
        _ => "By a verdict",
    };

    public static string Of(LoadStanding standing) => standing switch
    {
        LoadStanding.Listed => "List being made",
        LoadStanding.Running => "Running",
        LoadStanding.TakenOut => "Taken out, to be settled",
        LoadStanding.UnderHouseRule => "Under a house rule",
        LoadStanding.Waived => "Waived",
        LoadStanding.NotProved => "Not proved",
        _ => "Failed",
    };

    /// <summary>The shape and colour that goes with it.</summary>
    public static string Mark(LoadStanding standing) => standing switch
    {
        LoadStanding.UnderHouseRule or LoadStanding.Waived => "done",
        LoadStanding.NotProved or LoadStanding.Failed => "stop",
        _ => "waiting",
    };

    public static string Of(LoadEvent what) => what switch
    {
        LoadEvent.Listed => "List begun",
        LoadEvent.LidClosed => "Lid closed, the clock began",
        LoadEvent.ClockBeganAgain => "Lid opened to add something, the clock began again",
        LoadEvent.TakenOut => "Taken out, sealed",
        LoadEvent.UnderHouseRule => "Let in under a house rule, not proved",
        LoadEvent.Waived => "Let in by a curator, not proved",
        LoadEvent.NotProved => "Recorded as not proved",
        _ => "Recorded as failed",
    };

    public static string Of(Zone zone) => zone switch
    {
        Zone.CollectionRoom => "collection room",
        Zone.Outside => "outside",
        _ => "quarantine",
    };

    public static string Of(Step step) => step == Step.Imaged ? "Photographed" : step.ToString();

    /// <summary>What a sheet waits for at a step.</summary>
    public static string Waits(Step step) => step switch
    {
        Step.Numbered => "Scan numbers back",
        Step.Treated => "Treat sheets",
        Step.Mounted => "Mount sheets",
        Step.Labelled => "Label sheets",
        Step.Imaged => "Photograph sheets",
        _ => "File sheets",
    };

    /// <summary>2 boxes and 1 bundle.</summary>
    public static string Pieces(int boxes, int bundles) => string.Join(" and ", new[]
    {
        Counted(boxes, "box", "boxes"), Counted(bundles, "bundle", "bundles"),
    }.OfType<string>());

    private static string? Counted(int count, string one, string many) => count == 0
        ? null
        : string.Create(CultureInfo.InvariantCulture, $"{count:N0} {(count == 1 ? one : many)}");
}
