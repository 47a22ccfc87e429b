namespace Accession.Core.People;

/// <summary>A stretch of years in which gatherings under one name lie without a long gap.</summary>
/// <param name="First">The year of the first gathering.</param>
/// <param name="Last">The year of the last gathering.</param>
/// <param name="Gatherings">How many there are.</param>
public readonly record struct YearStretch(int First, int Last, int Gatherings)
{
    /// <summary>Reads the dates of gatherings into stretches, the earliest first.</summary>
    /// <param name="years">How many gatherings there are of each year, in any order; one year may come twice.</param>
    public static IReadOnlyList<YearStretch> Of(IEnumerable<(int Year, int Gatherings)> years)
    {
        List<YearStretch> stretches = [];
        foreach (var (year, gatherings) in years.OrderBy(one => one.Year))
        {
            if (stretches is [.., var last] && year - last.Last <= LongestGap)
            {
                stretches[^1] = last with { Last = year, Gatherings = last.Gatherings + gatherings };
            }
            else
            {
                stretches.Add(new(year, year, gatherings));
            }
        }

        return stretches;
    }

    /// <summary>
    /// Years without a gathering beyond which two people are to be thought of; common practice, no published source:
    /// few people stop collecting for longer than that and begin again.
    /// </summary>
    public const int LongestGap = 40;
}
