namespace Accession.Core.Localities;

/// <summary>
/// How much harm could come from publishing where a plant grows (Chapman 2020, <i>Current Best Practices for
/// Generalizing Sensitive Species Occurrence Data</i>). There is no default: a category that was forgotten is an error,
/// not a plant that needs no protection.
/// </summary>
public enum SensitivityCategory
{
    /// <summary>Category 1, extreme: withheld, or published to a cell of 1°.</summary>
    Extreme = 1,

    /// <summary>Category 2, high: published to a cell of 0.1°.</summary>
    High = 2,

    /// <summary>Category 3, medium: published to a cell of 0.01°.</summary>
    Medium = 3,

    /// <summary>Category 4, low: published to a cell of 0.001°.</summary>
    Low = 4,

    /// <summary>Somebody decided that this plant needs no protection: published as held.</summary>
    NotSensitive = 5,
}
