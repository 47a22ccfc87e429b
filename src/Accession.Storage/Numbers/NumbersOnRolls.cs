using Accession.Core.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Numbers;

/// <summary>What is known of barcodes that no sheet bears: on which roll they stand, whether they are void.</summary>
public sealed class NumbersOnRolls(AccessionDb db)
{
    /// <summary>That a number is void.</summary>
    /// <param name="Reason">Why, as whoever made it void wrote.</param>
    /// <param name="Since">Since when, in UTC.</param>
    public sealed record IsVoid(string Reason, DateTime Since);

    /// <summary>A barcode of a roll that no sheet bears.</summary>
    /// <param name="Written">Its number as the series writes it.</param>
    /// <param name="Roll">What the roll is called.</param>
    /// <param name="Void">Why nobody may put it on a sheet; null when somebody may.</param>
    public sealed record Unused(string Written, string Roll, IsVoid? Void);

    /// <summary>Whether a number of a roll is void; null when it is not.</summary>
    public async Task<IsVoid?> VoidAsync(long rollId, long number, CancellationToken cancellation) => await db.Voids
        .Where(v => v.RollId == rollId && v.First <= number && v.Last >= number
            && !db.VoidsTakenBack.Any(back => back.VoidId == v.Id))
        .Select(v => new IsVoid(v.Act.Reason ?? "", v.Act.At))
        .FirstOrDefaultAsync(cancellation);

    /// <summary>Which unused barcode of a roll a code is, in whatever spelling; null when it is none.</summary>
    public async Task<Unused?> UnusedAsync(string code, CancellationToken cancellation)
    {
        var series = await db.Series.AsNoTracking().Where(s => s.Use == SeriesUse.Specimens).OrderBy(s => s.Id)
            .ToListAsync(cancellation);
        foreach (var one in series)
        {
            if (one.Pattern.NumberIn(code) is not { } number
                || await db.Specimens.AnyAsync(s => s.SeriesId == one.Id && s.Number == number, cancellation))
            {
                continue;
            }

            var roll = await db.Rolls.AsNoTracking()
                .Where(r => r.SeriesId == one.Id && r.First <= number && r.Last >= number)
                .Select(r => new { r.Id, r.Name }).FirstOrDefaultAsync(cancellation);
            if (roll is not null)
            {
                return new(one.Pattern.Write(number, 0), roll.Name, await VoidAsync(roll.Id, number, cancellation));
            }
        }

        return null;
    }
}
