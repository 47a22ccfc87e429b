namespace Accession.Core.Gatherings;

/// <summary>
/// How finely a collecting date was written. A coarser value is never filled up: a year is not 1 January.
/// </summary>
public enum DatePrecision
{
    /// <summary>Only the year is known.</summary>
    Year,

    /// <summary>The year and the month are known.</summary>
    Month,

    /// <summary>The day is known.</summary>
    Day,
}
