using Accession.Core.Texts;

namespace Accession.Core.Matching;

/// <summary>
/// What makes a record this very record, and no duplicate of it. The meeting of one of them is a repeat; the same
/// collector, number, date and place alone never is, because an honest second sheet has all of these too.
/// </summary>
public sealed record Identities
{
    /// <summary>Nothing is known.</summary>
    public static Identities None { get; } = new();

    /// <summary>The sheet's own number, such as a barcode; empty when it has none.</summary>
    public string CatalogNumber { get; init; } = "";

    /// <summary>The institution whose number that is; a number of digits alone is no identity without it.</summary>
    public string InstitutionCode { get; init; } = "";

    /// <summary>The collection whose number that is; often empty.</summary>
    public string CollectionCode { get; init; } = "";

    /// <summary>The record's lasting identifier, as <c>dwc:occurrenceID</c>; empty when it has none.</summary>
    public string OccurrenceID { get; init; } = "";

    /// <summary>The source that sent the row; null when the row did not come from one.</summary>
    public long? SourceId { get; init; }

    /// <summary>The row's content, as <see cref="Batches.RowIdentity"/> gives it; empty when it is not a row.</summary>
    public string RowContent { get; init; } = "";

    internal ulong CatalogNumberKey
    {
        get
        {
            var number = Folding.Fold(CatalogNumber).Trim();
            var codes = Folding.Fold(InstitutionCode.Length > 0 ? InstitutionCode : CollectionCode).Trim();
            var isOwnName = number.Any(char.IsDigit) && (codes.Length > 0 || number.Any(char.IsLetter));
            return isOwnName ? StableHash.With(StableHash.Of(codes), StableHash.Of(number)) : 0;
        }
    }

    internal ulong OccurrenceKey => OccurrenceID.Trim() is { Length: > 0 } id ? StableHash.Of(id) : 0;

    internal ulong RowKey => SourceId is { } source && RowContent.Length > 0
        ? StableHash.With(StableHash.Of(RowContent), (ulong)source)
        : 0;
}
