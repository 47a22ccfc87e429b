namespace Accession.Core.Gatherings;

/// <summary>
/// Which number of an all-numeric date such as 12/05/2024 is the day. It is a habit of whoever wrote the list, so it
/// is settled once for a list and never guessed from one date.
/// </summary>
public enum DayMonthOrder
{
    /// <summary>Nobody has said; only dates that leave no choice are read.</summary>
    Unsettled,

    /// <summary>12/05/2024 is 12 May.</summary>
    DayFirst,

    /// <summary>12/05/2024 is 5 December.</summary>
    MonthFirst,
}
