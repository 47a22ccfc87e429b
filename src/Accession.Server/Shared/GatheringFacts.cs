using Accession.Core.Gatherings;
using Accession.Core.Localities;

namespace Accession.Server.Shared;

/// <summary>
/// What is known of a gathering, as programs read it: each text as written beside what was read from it. A place is
/// always the one that it was made from; what is public of a protected one says so.
/// </summary>
public sealed record GatheringFacts(
    string RecordedBy, string RecordedByVerbatim, string RecordNumber, string EventDate, string VerbatimEventDate,
    string Name, string IdentificationQualifier, string Family, string IdentifiedBy, string DateIdentified,
    string AssociatedTaxa, string OtherCatalogNumbers, PublicPlace Place)
{
    public static GatheringFacts Of(FieldNotes notes, PublicPlace place) => new(
        notes.RecordedBy, notes.CollectorsVerbatim, notes.RecordNumber, notes.EventDate, notes.DateVerbatim,
        notes.NameVerbatim, notes.IdentificationQualifier, notes.Family, notes.IdentifiedBy, notes.DateIdentified,
        notes.AssociatedTaxa, notes.OtherCatalogNumbers, place);
}
