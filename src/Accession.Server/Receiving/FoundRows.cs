using Accession.Core.Batches;
using Accession.Core.Localities;
using Accession.Core.Matching;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Rows beside what each was found with, and why: as labels, for a curator.</summary>
public sealed class FoundRows(AccessionDb db, ListReaders listReaders)
{
    /// <summary>A row with what it was found with, and why.</summary>
    public sealed record Shown(
        long RowId, int Line, FindingKind Kind, RowDecision? Decision, int Sheets, int AlikeNotCompared,
        FindingLabel Label, IReadOnlyList<Member> Members)
    {
        /// <summary>What the curator sees first, and decides by.</summary>
        public Member? Closest => Members.Count > 0 ? Members[0] : null;
    }

    /// <summary>One of those that the row was found with.</summary>
    public sealed record Member(long Id, FindingLabel Label, IReadOnlyList<string> Sentences);

    /// <summary>The batch whose rows are shown, with its lists and the acts that received them.</summary>
    public Task<Batch?> BatchAsync(long id, CancellationToken cancellation) => db.Batches.AsNoTracking()
        .Include(b => b.Source).Include(b => b.Lists).ThenInclude(l => l.Act)
        .SingleOrDefaultAsync(b => b.Id == id, cancellation);

    /// <summary>Each of the rows, in their order.</summary>
    public async Task<IReadOnlyList<Shown>> OfAsync(
        Batch batch, IReadOnlyList<BatchRow> rows, CancellationToken cancellation)
    {
        var readers = listReaders.OfAll(batch);
        var rowIds = rows.Select(row => row.Id).ToList();
        var members = (await db.FoundMembers.AsNoTracking().Where(member => rowIds.Contains(member.RowId))
            .OrderBy(member => member.Id).ToListAsync(cancellation)).ToLookup(member => member.RowId);
        var all = members.SelectMany(group => group).ToList();
        var gatherings = await LabelsAsync([.. all.Select(m => m.GatheringId).OfType<long>()], cancellation);
        var otherIds = all.Select(member => member.OtherRowId).OfType<long>().ToList();
        var others = await db.Rows.AsNoTracking().Where(r => otherIds.Contains(r.Id))
            .ToDictionaryAsync(r => r.Id, cancellation);
        return
        [
            .. rows.Select(row => new Shown(
                row.Id, row.Line, row.Finding!.Value, row.Decision, row.Sheets, row.AlikeNotCompared,
                Label(row, "Line {0} of the list"),
                [
                    .. members[row.Id].Select(member => new Member(
                        member.Id,
                        member.GatheringId is { } gatheringId
                            ? gatherings[gatheringId]
                            : Label(others[member.OtherRowId!.Value], "Line {0} of the same list"),
                        Evidence.FromPacked(member.Evidence).Sentences(row.Finding!.Value))),
                ])),
        ];

        FindingLabel Label(BatchRow one, string title)
        {
            var reading = readers[one.FirstListId].Read(RowCells.FromJson(one.Cells));
            return new(
                string.Format(System.Globalization.CultureInfo.InvariantCulture, title, one.Line), null,
                reading.Notes, reading.Place, false);
        }
    }

    private async Task<Dictionary<long, FindingLabel>> LabelsAsync(List<long> ids, CancellationToken cancellation)
    {
        var found = await db.Gatherings.Where(g => ids.Contains(g.Id))
            .Select(g => new
            {
                g.Id,
                g.Notes,
                g.Place,
                g.Protection,
                Accession = db.Accessions.Where(lot => lot.Id == g.AccessionId).Select(lot => lot.Number).Single(),
                Sheet = db.Specimens.Where(s => s.GatheringId == g.Id).OrderBy(s => s.Id)
                    .Select(s => s.CatalogNumber).FirstOrDefault(),
            })
            .ToListAsync(cancellation);
        return found.ToDictionary(held => held.Id, held => new FindingLabel(
            held.Sheet is { } sheet ? $"Held as {sheet}" : $"In accession {held.Accession}, not numbered yet",
            held.Sheet is { } number ? SpecimenAddress.Of(number) : $"/accession/{held.Accession}",
            held.Notes, held.Place, held.Protection != SensitivityCategory.NotSensitive));
    }
}
