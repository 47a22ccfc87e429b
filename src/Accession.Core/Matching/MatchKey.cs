namespace Accession.Core.Matching;

/// <summary>
/// One of the keys of a gathering or row. What meets in one key is compared; what meets in none is not. A key that
/// meets more than <see cref="MostCompared"/> gatherings is narrowed to those of the same day, then to those of the
/// same day and detail; what is still too many is told as "so many alike, not compared singly".
/// </summary>
/// <param name="Value">A hash of 64 bits that holds the kind too.</param>
/// <param name="Kind">What the key is made of.</param>
/// <param name="Day">The collecting day as a day number; 0 when not known to the day.</param>
/// <param name="Detail">A hash of genus and species, never negative; the same for all that are not named.</param>
public readonly record struct MatchKey(long Value, MatchKeyKind Kind, int Day, int Detail)
{
    /// <summary>How many gatherings one key may meet before it is narrowed.</summary>
    public const int MostCompared = 200;

    /// <summary>Whether meeting in this key alone makes a repeat.</summary>
    public bool IsIdentity => Kind is MatchKeyKind.CatalogNumber or MatchKeyKind.Occurrence or MatchKeyKind.Row;
}

/// <summary>What a key is made of. The values are stored; do not renumber.</summary>
public enum MatchKeyKind
{
    /// <summary>The sound of a collector's family name, and the number.</summary>
    NameAndNumber = 1,

    /// <summary>The number and the day.</summary>
    NumberAndDay = 2,

    /// <summary>The sound of a collector's family name, and the day.</summary>
    NameAndDay = 3,

    /// <summary>The plant's name, the day and the county or, without one, the place.</summary>
    PlantAndDay = 4,

    /// <summary>The sound of the first collector's family name, and the plant's name.</summary>
    NameAndPlant = 5,

    /// <summary>The catalog number with its institution.</summary>
    CatalogNumber = 16,

    /// <summary>The record's lasting identifier.</summary>
    Occurrence = 17,

    /// <summary>The source and the content of the row.</summary>
    Row = 18,
}
