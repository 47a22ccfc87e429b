namespace Accession.Core.Numbers;

/// <summary>The highest number of a series that somebody read on paper.</summary>
/// <param name="Year">The year, where the numbers begin again each year; otherwise 0.</param>
/// <param name="Number">The running number, from 1; 0 when no paper bears a number of this series.</param>
public readonly record struct PaperNumber(int Year, long Number)
{
    /// <summary>No paper bears a number of the series.</summary>
    public static PaperNumber None { get; }
}
