using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// What is asked of the register about one sheet, made ready once: to take such a query apart and look it up again at
/// each request took as long as to carry it out. Whether somebody may see the sheet is asked apart, where it must be.
/// One for each register, as its model is.
/// </summary>
public sealed class SheetStatements
{
    /// <summary>What one statement brings of a sheet, with its few names and parts.</summary>
    /// <param name="FirstGatheringId">The record that its gathering is a duplicate of, or its own.</param>
    /// <param name="IsRepeated">Whether another sheet bears the number too.</param>
    public sealed record Sheet(
        long Id, string CatalogNumber, int Repeat, Guid Version, string CurrentName, long? CurrentDeterminationId,
        string FiledAs, long GatheringId, FieldNotes Notes, PublicPlace Place, SensitivityCategory Protection,
        string Accession, string Source, DateTime TakenInAt, string TakenInBy, DateTime NumberedAt, string NumberedBy,
        long FirstGatheringId, bool IsRepeated, bool IsCorrected, List<ShownSpecimen.Name> Names,
        List<ShownSpecimen.Part> Parts);

    /// <summary>A record of a gathering, with its numbered sheets and how many wait for a number.</summary>
    public sealed record Group(
        long GatheringId, string Accession, int Waiting, bool HasAway, List<GroupSheet> Sheets);

    public sealed record GroupSheet(string CatalogNumber, int Repeat, bool IsRepeated);

    /// <summary>The sheets with exactly this number, at most two: one by its place among them, or any.</summary>
    public Func<AccessionDb, string, int?, IAsyncEnumerable<Sheet>> ByNumber { get; } = EF.CompileAsyncQuery(
        (AccessionDb db, string number, int? which) => db.Specimens
            .Where(s => s.CatalogNumber == number && (which == null || s.Repeat == which))
            .OrderBy(s => s.Repeat)
            .Take(2)
            .Join(db.Accessions, s => s.Gathering.AccessionId, lot => lot.Id, (s, lot) => new Sheet(
                s.Id, s.CatalogNumber, s.Repeat, s.Version, s.CurrentName, s.CurrentDeterminationId, s.FiledAs,
                s.GatheringId, s.Gathering.Notes, s.Gathering.Place, s.Gathering.Protection, lot.Number,
                db.Batches.Where(b => b.Id == lot.BatchId).Select(b => b.Source.Name).Single(),
                lot.Act.At, lot.Act.ActorName, s.Act.At, s.Act.ActorName,
                s.Gathering.DuplicateOfId ?? s.GatheringId,
                db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id),
                db.Corrections.Any(c => c.GatheringId == s.GatheringId),
                s.Determinations.OrderBy(d => d.Id)
                    .Select(d => new ShownSpecimen.Name(
                        d.Id, d.Name, d.Qualifier, d.IdentifiedBy, d.DateIdentified, d.Kind, d.SeenOn, d.Reason,
                        d.Waits))
                    .ToList(),
                s.Parts.OrderBy(p => p.Id)
                    .Select(p => new ShownSpecimen.Part(
                        p.Id, p.Code, p.Holder, p.IsNumbered, p.IsFromBefore, p.Zone,
                        db.Places.Where(place => place.Id == p.PlaceId).Select(place => place.Name).FirstOrDefault(),
                        p.CameFromOutsideAt, p.ClearedAt, p.ClearedBy, p.MayOpenFrom, p.NextStep,
                        db.Parcels.Where(q => q.Id == p.ParcelId).Select(q => q.Tag).FirstOrDefault(),
                        db.Loads.Where(load => load.Id == p.LoadId).Select(load => (int?)load.Number)
                            .FirstOrDefault()))
                    .ToList()))
            .TagWith(AskedOften.Tag).AsNoTracking().AsSingleQuery());

    /// <summary>A gathering's records: the first, and those that were kept as its duplicates.</summary>
    public Func<AccessionDb, long, IAsyncEnumerable<Group>> Together { get; } = EF.CompileAsyncQuery(
        (AccessionDb db, long first) => db.Gatherings
            .Where(g => g.Id == first || g.DuplicateOfId == first)
            .OrderBy(g => g.Id)
            .Select(g => new Group(
                g.Id,
                db.Accessions.Where(lot => lot.Id == g.AccessionId).Select(lot => lot.Number).Single(),
                g.SheetsExpected - g.SheetsNumbered,
                db.SetAside.Any(s => s.GatheringId == g.Id),
                db.Specimens.Where(s => s.GatheringId == g.Id).OrderBy(s => s.CatalogNumber).ThenBy(s => s.Repeat)
                    .Select(s => new GroupSheet(
                        s.CatalogNumber, s.Repeat,
                        db.Specimens.Any(o => o.SeriesId == s.SeriesId && o.Number == s.Number && o.Id != s.Id)))
                    .ToList()))
            .TagWith(AskedOften.Tag).AsNoTracking().AsSingleQuery());
}
