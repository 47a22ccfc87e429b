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
    public sealed record Member(long Id, FindingLabel Label, IReadOnlyList<string> Sentences)
    {
        /// <summary>The number of the held sheet; null where there is none yet, or it is a row.</summary>
        public string? CatalogNumber { get; init; }

        /// <summary>The accession of the held sheets; null for a row.</summary>
        public string? AccessionNumber { get; init; }

        /// <summary>The line of the same list; null for what is held.</summary>
        public int? Line { get; init; }
    }

    /// <summary>A gathering of the register that a row was found with.</summary>
    private sealed record Held(FindingLabel Label, string? CatalogNumber, string AccessionNumber);

    /// <summary>The batch whose rows are shown, with its lists and the acts that received them.</summary>
    public Task<Batch?> BatchAsync(long id, CancellationToken cancellation) => db.Batches.AsNoTracking()
        .Include(b => b.Source).Include(b => b.Lists).ThenInclude(l => l.Act)
        .SingleOrDefaultAsync(b => b.Id == id, cancellation);

    /// <summary>Shows rows of a batch, whose lists come with their acts; rows without a finding are none.</summary>
    public async Task<IReadOnlyList<Shown>> OfAsync(
        Batch batch, IReadOnlyList<BatchRow> rows, CancellationToken cancellation)
    {
        var readers = listReaders.OfAll(batch);
        var rowIds = rows.Select(row => row.Id).ToList();
        var members = await db.FoundMembers.AsNoTracking().Where(member => rowIds.Contains(member.RowId))
            .OrderBy(member => member.Id).ToListAsync(cancellation);
        var gatherings = await HeldAsync(
            [.. members.Select(member => member.GatheringId).OfType<long>().Distinct()], cancellation);
        var otherIds = members.Select(member => member.OtherRowId).OfType<long>().Distinct().ToList();
        var others = await db.Rows.AsNoTracking().Where(row => otherIds.Contains(row.Id))
            .ToDictionaryAsync(row => row.Id, cancellation);
        var ofRow = members.ToLookup(member => member.RowId);
        return
        [
            .. rows.Select(row => new Shown(
                row.Id, row.Line, row.Finding!.Value, row.Decision, row.Sheets, row.AlikeNotCompared,
                Label(row, $"Line {row.Line} of the list"), [.. ofRow[row.Id].Select(member => Show(row, member))])),
        ];

        Member Show(BatchRow row, FoundMember member)
        {
            var sentences = Evidence.FromPacked(member.Evidence).Sentences(row.Finding!.Value);
            if (member.GatheringId is { } gathering)
            {
                var held = gatherings[gathering];
                return new(member.Id, held.Label, sentences)
                {
                    CatalogNumber = held.CatalogNumber,
                    AccessionNumber = held.AccessionNumber,
                };
            }

            var other = others[member.OtherRowId!.Value];
            return new(member.Id, Label(other, $"Line {other.Line} of the same list"), sentences)
            {
                Line = other.Line,
            };
        }

        FindingLabel Label(BatchRow row, string title)
        {
            var (notes, place, _, _) = readers[row.FirstListId].Read(RowCells.FromJson(row.Cells));
            return new(title, null, notes, place, false);
        }
    }

    private async Task<Dictionary<long, Held>> HeldAsync(List<long> ids, CancellationToken cancellation)
    {
        var gatherings = await db.Gatherings.Where(g => ids.Contains(g.Id))
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
        return gatherings.ToDictionary(held => held.Id, held => new Held(
            new(
                held.Sheet is { } sheet ? $"Held as {sheet}" : $"In accession {held.Accession}, not numbered yet",
                held.Sheet is { } number ? SpecimenAddress.Of(number) : $"/accession/{held.Accession}",
                held.Notes, held.Place, held.Protection != SensitivityCategory.NotSensitive),
            held.Sheet, held.Accession));
    }
}
