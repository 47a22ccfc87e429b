using Accession.Core.Batches;

namespace Accession.Server.Shared;

/// <summary>Where sheets go that do not stay, in the words of the pages.</summary>
public static class WayOut
{
    public static string Of(RowDecision decision) => decision switch
    {
        RowDecision.Exchange => "for exchange",
        RowDecision.Return => "back to the sender",
        RowDecision.Discard => "to be discarded",
        _ => throw new ArgumentOutOfRangeException(nameof(decision), decision, "These sheets stay."),
    };
}
