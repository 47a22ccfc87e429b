namespace Accession.Core.Batches;

/// <summary>
/// What a row was found with: a gathering of the register, or a row that stands before it in its list.
/// </summary>
/// <param name="GatheringId">The gathering; null when it is a row.</param>
/// <param name="RowId">The row; null when it is a gathering.</param>
public readonly record struct FoundWith(long? GatheringId, long? RowId);
