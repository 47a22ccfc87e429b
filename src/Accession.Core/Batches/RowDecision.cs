namespace Accession.Core.Batches;

/// <summary>What a curator decides about a row that was found to belong with something.</summary>
public enum RowDecision
{
    /// <summary>Its sheets stay, as duplicates of the gathering it was found with.</summary>
    Keep = 1,

    /// <summary>Its sheets leave for another herbarium, under the gathering; they take no number.</summary>
    Exchange = 2,

    /// <summary>Its sheets go back to the sender; they take no number.</summary>
    Return = 3,

    /// <summary>Its sheets are discarded; they take no number.</summary>
    Discard = 4,

    /// <summary>The collector is asked first; the row waits for the answer.</summary>
    Ask = 5,

    /// <summary>It is another gathering than those it was found with, and goes in as one of its own.</summary>
    Different = 6,
}

/// <summary>What follows from a decision.</summary>
public static class RowDecisions
{
    /// <summary>Whether the sheets leave, and are only counted.</summary>
    /// <param name="decision">The decision.</param>
    public static bool Leaves(this RowDecision decision) =>
        decision is RowDecision.Exchange or RowDecision.Return or RowDecision.Discard;
}
