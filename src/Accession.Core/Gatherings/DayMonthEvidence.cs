namespace Accession.Core.Gatherings;

/// <summary>What one date as written says about the order of day and month in its list.</summary>
public enum DayMonthEvidence
{
    /// <summary>Nothing: the month is named, the year stands first, or both numbers are equal.</summary>
    None,

    /// <summary>The date makes sense both ways, and means two different days: 12/05/2024.</summary>
    Either,

    /// <summary>The first number can only be a day: 25/12/2024.</summary>
    ProvesDayFirst,

    /// <summary>The second number can only be a day: 12/25/2024.</summary>
    ProvesMonthFirst,
}
