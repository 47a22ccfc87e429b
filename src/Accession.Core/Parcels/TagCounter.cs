using System.Globalization;
using Accession.Core.Outcomes;

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

    /// <summary>
    /// The act that closed it, since the register was put back and may have forgotten what is on paper; null while it
    /// issues.
    /// </summary>
    public long? ClosedActId { get; private set; }

    /// <summary>
    /// The most numbers that can have been given out since a backup; more is taken for a slip of the pen.
    /// </summary>
    public const int MostLost = 10_000;

    /// <summary>Takes the next number.</summary>
    /// <param name="year">The year it is here. A clock that went back does not bring an old year back.</param>
    /// <returns>The year and the number, 1 at least; or why none is issued.</returns>
    public Outcome<(int Year, int Number)> Take(int year)
    {
        if (ClosedActId is not null)
        {
            return new Refusal(RefusalKind.Conflict, Kind == TagKind.Parcel
                ? "The register was put back from a backup, and tags given out since are not known here. Say first "
                    + "which is the highest tag on a parcel."
                : "The register was put back from a backup, and loads listed since are not known here. Say first which "
                    + "is the highest number on the slip of a load.");
        }

        if (Kind == TagKind.Parcel && year > Year)
        {
            (Year, Next) = (year, 1);
        }

        var taken = Next;
        Next++;
        return (Year, taken);
    }

    /// <summary>Issues again, behind the highest number that is on paper.</summary>
    /// <param name="year">The year of that number; for loads any.</param>
    /// <param name="highest">The number; 0 when nothing was given out since the backup.</param>
    /// <param name="act">The act of whoever looked.</param>
    /// <param name="lost">The numbers that are on paper and not in the register; null when there are none.</param>
    public Refusal? Open(int year, int highest, Act act, out TagsLost? lost)
    {
        lost = null;
        if (ClosedActId is null)
        {
            return new(RefusalKind.Conflict, "Numbers are issued already: nothing was asked.");
        }

        var isNewYear = Kind == TagKind.Parcel && year > Year;
        var first = isNewYear ? 1 : Next;
        if (highest - first >= MostLost)
        {
            return new(RefusalKind.Invalid, string.Create(CultureInfo.InvariantCulture,
                $"{highest} is more than {MostLost:N0} ahead of what is known here. Look at it again."));
        }

        if (highest >= first && (isNewYear || Kind == TagKind.Load || year == Year))
        {
            (Year, Next) = (Kind == TagKind.Parcel ? year : Year, highest + 1);
            lost = TagsLost.Of(Kind, Year, first, highest, act);
        }

        ClosedActId = null;
        return null;
    }
}
