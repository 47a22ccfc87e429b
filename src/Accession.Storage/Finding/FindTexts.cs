using System.Runtime.CompilerServices;
using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Specimens;
using Accession.Storage.Verifying;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Finding;

/// <summary>
/// The words by which sheets are found: written for a register from before, and compared with what they say.
/// </summary>
public static class FindTexts
{
    private const int Slice = 500;

    private sealed record Said(
        long Id, string CatalogNumber, string FindText, List<string> Names, Gathering Gathering)
    {
        public string Meant => Core.Specimens.FindText.Of(CatalogNumber, Names, Gathering);
    }

    /// <summary>Gives every sheet without words its own; nothing is done where all have theirs.</summary>
    public static async Task BringUpAsync(AccessionDb db, CancellationToken cancellation)
    {
        // By key, not by what is left: a sheet whose record has no letter and no digit stays without words.
        long after = 0;
        while (await SliceAsync(db.Specimens.Where(s => s.FindText == "" && s.Id > after), cancellation)
            is { Count: > 0 } slice)
        {
            after = slice[^1].Id;
            await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
            foreach (var one in slice)
            {
                var words = one.Meant;
                await db.Specimens.Where(s => s.Id == one.Id)
                    .ExecuteUpdateAsync(row => row.SetProperty(s => s.FindText, words), cancellation);
            }

            await transaction.CommitAsync(cancellation);
        }
    }

    /// <summary>The sheets whose words are not those of their record.</summary>
    public static async IAsyncEnumerable<Disagreement> WrongAsync(
        AccessionDb db, string check, [EnumeratorCancellation] CancellationToken cancellation)
    {
        long after = 0;
        while (await SliceAsync(db.Specimens.Where(s => s.Id > after), cancellation) is { Count: > 0 } slice)
        {
            foreach (var one in slice.Where(one => one.FindText != one.Meant))
            {
                yield return new(check, $"specimen {one.CatalogNumber}", "other words", "the words of its record");
            }

            after = slice[^1].Id;
        }
    }

    private static Task<List<Said>> SliceAsync(IQueryable<Specimen> sheets, CancellationToken cancellation) => sheets
        .AsNoTracking().AsSplitQuery().IgnoreAutoIncludes()
        .OrderBy(s => s.Id).Take(Slice)
        .Select(s => new Said(
            s.Id, s.CatalogNumber, s.FindText, s.Determinations
                .Where(d => d.Kind != DeterminationKind.Rejection).OrderBy(d => d.Id).Select(d => d.Name).ToList(),
            s.Gathering))
        .ToListAsync(cancellation);
}
