using Accession.Core.Gatherings;

namespace Accession.Core.Batches;

/// <summary>What was settled for a list as a whole.</summary>
/// <param name="Order">Whether day or month comes first in dates written in figures.</param>
/// <param name="ReceivedOn">The day the list came: no sheet was collected after it.</param>
public sealed record ListSettings(DayMonthOrder Order, DateOnly ReceivedOn)
{
    /// <summary>Whether its sheets are taken over with the numbers they bear.</summary>
    public bool CarriesNumbers { get; init; }

    /// <summary>The acronyms of this herbarium: a number that stands under one of them is no other's.</summary>
    public IReadOnlyCollection<string> OwnAcronyms { get; init; } = [];
}
