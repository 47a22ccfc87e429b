using Accession.Core.Gatherings;

namespace Accession.Core.Batches;

/// <summary>What was settled for a list as a whole.</summary>
/// <param name="Order">Whether day or month comes first in dates written in figures.</param>
/// <param name="ReceivedOn">The day the list came: no sheet was collected after it.</param>
public sealed record ListSettings(DayMonthOrder Order, DateOnly ReceivedOn);
