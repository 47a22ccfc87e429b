namespace Accession.Core.Parcels;

/// <summary>What a running number is written on.</summary>
public enum TagKind
{
    /// <summary>The tag of a parcel, which begins again each year.</summary>
    Parcel,

    /// <summary>The slip of a freezer load, which never begins again.</summary>
    Load,
}

/// <summary>
/// The counter of tags and load slips. One row for each kind, held by the transaction that uses the number: if that
/// fails, the number was never issued, so there are no gaps.
/// </summary>
public sealed class TagCounter
{
    private TagCounter()
    {
    }

    /// <summary>What it counts; there is one counter for each.</summary>
    public TagKind Kind { get; private set; }

    /// <summary>The year of the last number; 0 before the first.</summary>
    public int Year { get; private set; }

    /// <summary>The next number of that year.</summary>
    public int Next { get; private set; }

    /// <summary>Takes the next number.</summary>
    /// <param name="year">The year it is here. A clock that went back does not bring an old year back.</param>
    /// <returns>The year and the number, 1 at least.</returns>
    public (int Year, int Number) Take(int year)
    {
        if (Kind == TagKind.Parcel && year > Year)
        {
            (Year, Next) = (year, 1);
        }

        var taken = Next;
        Next++;
        return (Year, taken);
    }
}
