using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Localities;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Reads a sheet for its page, in as few statements as may be: of a page, most of the time goes there, and one that
/// brings a row takes as long as one that brings ten.
/// </summary>
public sealed class ReadSpecimen(
    AccessionDb db, SheetStatements statements, SpecimenTrail trail, SeenSheets seen, CorrectedRecords corrected)
{
    /// <summary>
    /// The sheet that bears a number, when it is one, or the one that is meant of several; null where several bear it
    /// or none does.
    /// </summary>
    /// <param name="number">The number.</param>
    /// <param name="which">Which of the sheets that bear it, 0 for the first; null when nobody said.</param>
    /// <param name="who">Who wants to see it.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<ShownSpecimen?> RunAsync(
        string number, int? which, Actor who, CancellationToken cancellation)
    {
        if (await WithNumberAsync(number, which, who, cancellation) is not [var sheet]
            || (sheet.IsRepeated && which is null))
        {
            return null;
        }

        var among = sheet.IsRepeated ? (await BearingAsync(number, who, cancellation)).Count : 1;
        return await WithAllAsync(sheet, among, who, cancellation);
    }

    /// <summary>
    /// The sheets that bear a number, those that bear it in another spelling too, where it is one of a series.
    /// </summary>
    public Task<List<BearingSheet>> BearingAsync(string number, Actor who, CancellationToken cancellation) =>
        db.Specimens.Where(o => o.CatalogNumber == number).Select(o => new { o.SeriesId, o.Number }).Distinct()
            .Join(seen.Of(who), o => new { o.SeriesId, o.Number }, s => new { s.SeriesId, s.Number }, (_, s) => s)
            .OrderBy(s => s.Repeat)
            .Select(s => new BearingSheet(
                s.CatalogNumber, s.Repeat, s.CurrentName, s.Gathering.Notes.RecordedBy, s.Gathering.Notes.RecordNumber,
                s.Gathering.Notes.EventDate, s.Gathering.Notes.DateVerbatim,
                db.Accessions.Where(lot => lot.Id == s.Gathering.AccessionId).Select(lot => lot.Number).Single()))
            .ToListAsync(cancellation);

    /// <summary>The sheets with exactly this number that somebody may see, at most two.</summary>
    public async Task<IReadOnlyList<SheetStatements.Sheet>> WithNumberAsync(
        string number, int? which, Actor who, CancellationToken cancellation)
    {
        if (who.SeesWholeRegister)
        {
            return await statements.ByNumber(db, number, which).ToListAsync(cancellation);
        }

        var repeats = await seen.Of(who).Where(s => s.CatalogNumber == number && (which == null || s.Repeat == which))
            .OrderBy(s => s.Repeat).Select(s => s.Repeat).Take(2).ToListAsync(cancellation);
        List<SheetStatements.Sheet> found = [];
        foreach (var repeat in repeats)
        {
            found.AddRange(await statements.ByNumber(db, number, repeat).ToListAsync(cancellation));
        }

        return found;
    }

    private async Task<ShownSpecimen> WithAllAsync(
        SheetStatements.Sheet sheet, int among, Actor who, CancellationToken cancellation)
    {
        var corrections = sheet.IsCorrected
            ? await corrected.EntriesAsync(
                db.Corrections.Where(c => c.GatheringId == sheet.GatheringId), cancellation)
            : [];
        var current = sheet.CurrentDeterminationId ?? sheet.Names.FirstOrDefault()?.Id;
        return new(
            sheet.Id, sheet.CatalogNumber, sheet.CurrentName, sheet.FiledAs, sheet.GatheringId, sheet.Accession,
            sheet.Notes, sheet.Place, sheet.Protection,
            sheet.Names.ConvertAll(name => name with { IsCurrent = name.Id == current }),
            sheet.Parts,
            await DuplicatesAsync(sheet.FirstGatheringId, who, cancellation),
            among > 1 ? new(sheet.Repeat, among) : null,
            corrections,
            [
                .. Begun(sheet),
                .. (await trail.OfAsync(db, sheet.Id, sheet.GatheringId, cancellation))
                    .Concat(corrections.Select(c => new TrailEntry(c.At, c.Sentence(), c.By, c.ActId)))
                    .OrderBy(entry => entry.At),
            ]);
    }

    /// <summary>All sheets of a gathering that somebody may see.</summary>
    /// <param name="first">The record that the others were kept as duplicates of, or the only one.</param>
    /// <param name="who">Who wants to see them.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<DuplicateSheets> DuplicatesAsync(long first, Actor who, CancellationToken cancellation)
    {
        var records = await statements.Together(db, first).ToListAsync(cancellation);
        var ids = records.ConvertAll(record => record.GatheringId);
        if (!who.SeesWholeRegister)
        {
            ids = await seen.GatheringsOf(who).Where(g => ids.Contains(g.Id)).Select(g => g.Id)
                .ToListAsync(cancellation);
            records = records.FindAll(record => ids.Contains(record.GatheringId));
        }

        var away = records.Exists(record => record.HasAway)
            ? await db.SetAside.Where(s => ids.Contains(s.GatheringId)).OrderBy(s => s.Id)
                .Select(s => new DuplicateSheets.Away(
                    s.Sheets, s.Decision,
                    db.Accessions.Where(lot => lot.Id == s.AccessionId).Select(lot => lot.Number).Single(),
                    s.Act.Reason, s.Act.ActorName, s.Act.At))
                .ToListAsync(cancellation)
            : [];
        return new(
            [
                .. records.SelectMany(record => record.Sheets, (record, sheet) => new DuplicateSheets.Sheet(
                        sheet.CatalogNumber, sheet.Repeat, sheet.IsRepeated, record.Accession))
                    .OrderBy(sheet => sheet.CatalogNumber, StringComparer.Ordinal).ThenBy(sheet => sheet.Repeat),
            ],
            [
                .. records.Where(record => record.Waiting > 0).Select(record => new DuplicateSheets.Unnumbered(
                    record.GatheringId, record.Accession, record.Waiting)),
            ],
            away);
    }

    private static IEnumerable<TrailEntry> Begun(SheetStatements.Sheet sheet)
    {
        if (sheet.Parts.Any(part => part.IsFromBefore))
        {
            yield return new(
                sheet.NumberedAt,
                $"Taken over from {sheet.Source} with the number it bore, as accession {sheet.Accession}",
                sheet.NumberedBy);
            yield break;
        }

        yield return new(
            sheet.TakenInAt, $"Taken into the register as accession {sheet.Accession}", sheet.TakenInBy);
        yield return new(sheet.NumberedAt, "Numbered", sheet.NumberedBy);
    }
}
