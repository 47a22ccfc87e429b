namespace Accession.Core.Gatherings;

/// <summary>tmp</summary>
public enum DayMonthOrder
{
    /// <summary>tmp</summary>
    Unsettled,
    /// <summary>tmp</summary>
    DayFirst,
    /// <summary>tmp</summary>
    MonthFirst,
}
