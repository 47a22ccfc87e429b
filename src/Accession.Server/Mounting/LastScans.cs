using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Mounting;

/// <summary>
/// What somebody last did at a step of the bench, from the register: the same after the page was loaded again.
/// </summary>
internal static class LastScans
{
    /// <summary>So many, the latest first.</summary>
    public const int Most = 10;

    public static async Task<List<BenchScan>> OfAsync(
        AccessionDb db, Step step, string? who, CancellationToken cancellation)
    {
        var entries = await db.Parts.SelectMany(p => p.Steps)
            .Where(entry => entry.Step == step && entry.Act.ActorId == who)
            .OrderByDescending(entry => entry.Id).Take(Most)
            .Join(db.Parts, entry => entry.PartId, part => part.Id, (entry, part) => new
            {
                entry.Id,
                entry.Mark,
                part.Code,
                part.SpecimenId,
            })
            .Join(db.Specimens, one => one.SpecimenId, sheet => sheet.Id, (one, sheet) => new
            {
                one.Id,
                one.Mark,
                one.Code,
                sheet.CatalogNumber,
                sheet.Repeat,
                Label = sheet.Gathering.Notes.RecordedBy + " " + sheet.Gathering.Notes.RecordNumber,
                sheet.CurrentName,
            })
            .OrderByDescending(one => one.Id)
            .ToListAsync(cancellation);
        return entries.ConvertAll(one => BenchScan.OnRecord(
            step, one.Mark == StepMark.NeededAgain, one.Code, one.Label.Trim(), one.CurrentName,
            SpecimenAddress.Of(one.CatalogNumber, one.Repeat, isRepeated: one.Repeat > 0)));
    }
}
