using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage.Localities;

namespace Accession.Server.Tracking;

/// <summary>A numbered sheet as its page shows it.</summary>
public sealed record ShownSpecimen(
    long Id,
    string CatalogNumber,
    string CurrentName,
    string FiledAs,
    long GatheringId,
    string AccessionNumber,
    FieldNotes Notes,
    PublicPlace Place,
    SensitivityCategory Protection,
    IReadOnlyList<ShownSpecimen.Name> Names,
    IReadOnlyList<ShownSpecimen.Part> Parts,
    DuplicateSheets Duplicates,
    ShownSpecimen.Among? Repeated,
    IReadOnlyList<CorrectedRecords.Entry> Corrections,
    IReadOnlyList<TrailEntry> Trail)
{
    public string Label => $"{Notes.RecordedBy} {Notes.RecordNumber}".Trim();

    /// <summary>What the list had, where it has no place of its own beside what was read from it.</summary>
    public IEnumerable<CorrectedRecords.Entry> Written => Corrections.DistinctBy(entry => entry.Field)
        .Where(entry => entry.Before is { Length: > 0 } && entry.Field is not (CorrectedField.Collectors
            or CorrectedField.Date or CorrectedField.Coordinates or CorrectedField.Elevation));

    /// <summary>Which of the sheets it is that bear one number; 0 for the first.</summary>
    public sealed record Among(int Repeat, int Sheets);

    /// <summary>A name that somebody gave it.</summary>
    public sealed record Name(
        long Id, string Text, string Qualifier, string IdentifiedBy, string DateIdentified, DeterminationKind Kind,
        SeenOn SeenOn, string Reason, bool Waits)
    {
        public bool IsCurrent { get; init; }

        public string By => Kind.SaidBy(IdentifiedBy);

        public string Seen => SeenOn.Said();
    }

    /// <summary>A part of it, and where it is.</summary>
    public sealed record Part(
        long Id, string Code, string Holder, bool IsNumbered, bool IsFromBefore, Zone Zone, string? Place,
        DateTime? CameFromOutsideAt, DateTime? ClearedAt, ClearedBy? ClearedBy, DateTime? MayOpenFrom, Step? NextStep,
        string? Parcel, int? Load)
    {
        /// <summary>Whether it may come in, as <see cref="Core.Specimens.Part.IsCleared"/> has it.</summary>
        public bool IsCleared => CameFromOutsideAt is null
            ? IsFromBefore || ClearedAt is not null
            : ClearedAt > CameFromOutsideAt;
    }
}

/// <summary>One of several sheets that bear one number.</summary>
public sealed record BearingSheet(
    string CatalogNumber, int Repeat, string Name, string Collector, string RecordNumber, string EventDate,
    string DateVerbatim, string Accession)
{
    public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, isRepeated: true);
}
