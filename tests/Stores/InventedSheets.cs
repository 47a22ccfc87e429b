using Accession.Core.Accessions;
using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Tests.Stores;

/// <summary>
/// Sheets in a fresh register, by the verbs of the program, one after the other, so that the keys are the same wherever
/// they are made. Only the identifiers, which are random, are overwritten with their keys.
/// </summary>
internal static class InventedSheets
{
    /// <summary>The words that hold whatever text is asked for, in every text of the notes and the place.</summary>
    public static (FieldNotes Notes, PublicPlace Place) Everywhere(string text) => (
        new FieldNotes
        {
            CollectorsVerbatim = text,
            RecordedBy = text,
            RecordNumber = text,
            DateVerbatim = text,
            EventDate = text,
            Year = 1987,
            Month = 6,
            Day = 14,
            AssociatedTaxa = text,
            NameVerbatim = text,
            IdentificationQualifier = text,
            Family = text,
            IdentifiedBy = text,
            DateIdentified = text,
            OtherCatalogNumbers = text,
        },
        new PublicPlace
        {
            Country = text,
            CountryCode = text,
            StateProvince = text,
            County = text,
            Municipality = text,
            Locality = text,
            Habitat = text,
            Remarks = text,
            CoordinatesVerbatim = text,
            Latitude = 43.5,
            Longitude = -118.25,
            CoordinatePrecision = 0.00001,
            UncertaintyInMeters = 30,
            GeodeticDatum = text,
            ElevationVerbatim = text,
            MinimumElevationInMeters = 1371.6,
            MaximumElevationInMeters = 1400,
            DataGeneralizations = text,
            InformationWithheld = text,
        });

    /// <summary>Numbers one sheet of each gathering, in the order given.</summary>
    /// <returns>The keys of the gatherings.</returns>
    public static async Task<IReadOnlyList<long>> SeedAsync(
        AccessionDb db, DateTime at, params IReadOnlyList<(FieldNotes Notes, PublicPlace Place)> sheets)
    {
        var act = Act.Of(Door.System, "invent", at);
        var batch = Batch.From(Source.Named("Invented"), act);
        var list = batch.Receive(new("invented.csv", "none", "", 0), act);
        await SaveAsync(db, batch);
        await using (var transaction = await db.Database.BeginTransactionAsync())
        {
            var rows = sheets.Select((_, i) => new StagedRow(0, i + 2, $"row {i}", 1, "", "[]", 1, [])).ToList();
            await db.Kind.Rows.StoreAsync(db, new RowSlice(batch.Id, list.Id, rows, []), CancellationToken.None);
            await transaction.CommitAsync();
        }

        var statement = new AccessionLot.Statement(AccessionTerms.Gift, sheets.Count, null, null, null, null);
        var lot = AccessionLot.TakeIn("2026.0001", batch, sheets.Count, statement, act).Value;
        await SaveAsync(db, lot);
        var series = NumberSeries.Begin("Sheets", SeriesUse.Specimens, "TB-H0000000").Value;
        await SaveAsync(db, series);
        List<long> gatherings = [];
        foreach (var row in await db.Rows.OrderBy(row => row.Line).Select(row => row.Id).ToListAsync())
        {
            var (notes, place) = sheets[gatherings.Count];
            var gathering = Gathering.TakeIn(lot.Id, act.Id, row, new RowReading(notes, place, 1, []));
            await SaveAsync(db, gathering);
            gatherings.Add(gathering.Id);
            var number = new Specimen.SheetNumber(series.Id, gatherings.Count, $"TB-H{gatherings.Count:0000000}");
            await SaveAsync(db, Specimen.NumberSheet(number, gathering, "Herbarium", proven: true, null, null, act).Value);
        }

        await db.Database.ExecuteSqlRawAsync(
            "UPDATE specimen SET occurrence_id = 'urn:uuid:00000000-0000-4000-8000-' || (100000000000 + id)");
        return gatherings;
    }

    private static async Task SaveAsync(AccessionDb db, object entity)
    {
        db.Add(entity);
        await db.SaveChangesAsync();
    }
}
