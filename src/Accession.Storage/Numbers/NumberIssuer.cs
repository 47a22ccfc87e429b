using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Numbers;

/// <summary>
/// Issues numbers without gaps, inside the transaction that uses them: if it fails, the number was never issued.
/// Numbers of lots come from the counter row, which is held until the transaction ends. Numbers of sheets lie ready as
/// rows, and everybody takes another one, so that nobody waits; only who finds none holds the counter and lays more.
/// </summary>
public sealed class NumberIssuer(AccessionDb db)
{
    /// <summary>The series as it is now, held for this transaction.</summary>
    /// <returns>The series; a refusal when there is none of this use under this key.</returns>
    public async Task<Outcome<NumberSeries>> HoldAsync(long seriesId, SeriesUse use, CancellationToken cancellation) =>
        await HoldAsync(seriesId, cancellation) is { } series && series.Use == use
            ? series
            : new Refusal(RefusalKind.Invalid, use == SeriesUse.Specimens
                ? "Choose a series whose numbers go on sheets."
                : "Choose a series whose numbers go on accessions.");

    /// <summary>The series as it is now, whatever its use, held for this transaction; null if there is none.</summary>
    public async Task<NumberSeries?> HoldAsync(long seriesId, CancellationToken cancellation)
    {
        // A counter that this operation read before may be old, and would be given back as it was read.
        if (db.Series.Local.FindEntry(seriesId) is { } loaded)
        {
            loaded.State = EntityState.Detached;
        }

        return await db.Series.Held().SingleOrDefaultAsync(series => series.Id == seriesId, cancellation);
    }

    /// <summary>
    /// The series of the numbers from before, held for this transaction; begun if it is not there yet. Who holds it is
    /// the only one who takes sheets over.
    /// </summary>
    public async Task<NumberSeries> HoldFromBeforeAsync(CancellationToken cancellation)
    {
        if (db.Series.Local.FirstOrDefault(series => series.Use == SeriesUse.FromBefore) is { } loaded)
        {
            db.Entry(loaded).State = EntityState.Detached;
        }

        var held = await db.Series.Held().SingleOrDefaultAsync(s => s.Use == SeriesUse.FromBefore, cancellation);
        if (held is not null)
        {
            return held;
        }

        var begun = NumberSeries.FromBefore();
        db.Add(begun);
        await db.SaveChangesAsync(cancellation);
        return begun;
    }

    /// <summary>
    /// All numbers of a series that lie ready, the lowest first, held for this transaction. Waits for those who are
    /// numbering a sheet; who holds the series as well sees all that will ever be.
    /// </summary>
    public Task<List<ReadyNumber>> HoldReadyAsync(long seriesId, CancellationToken cancellation) =>
        db.ReadyNumbers.Held().Where(number => number.SeriesId == seriesId)
            .OrderBy(number => number.Number)
            .ToListAsync(cancellation);

    /// <summary>
    /// The series, held, and its counter right behind the last number in use: what lay ready above that is taken back.
    /// Waits for those who are numbering a sheet.
    /// </summary>
    public async Task<Outcome<NumberSeries>> HoldAtLastUsedAsync(long seriesId, CancellationToken cancellation)
    {
        var series = await HoldAsync(seriesId, SeriesUse.Specimens, cancellation);
        if (!series.IsRefused)
        {
            db.RemoveRange(series.Value.TakeBack(await HoldReadyAsync(seriesId, cancellation)));
        }

        return series;
    }

    /// <summary>The next number of a series for a lot.</summary>
    /// <param name="year">This year, for series that begin again each year.</param>
    public async Task<Outcome<IssuedNumber>> NextForLotAsync(long seriesId, int year, CancellationToken cancellation)
    {
        var series = await HoldAsync(seriesId, SeriesUse.Accessions, cancellation);
        return series.IsRefused ? series.Refusals.ToList() : series.Value.Issue(year, []);
    }

    /// <summary>The next number of a series for a sheet.</summary>
    public async Task<Outcome<IssuedNumber>> NextForSheetAsync(long seriesId, CancellationToken cancellation)
    {
        if (await TakeReadyAsync(seriesId, cancellation) is { } ready)
        {
            if (ready.IsFirstOfLaying)
            {
                await LayAheadAsync(seriesId, cancellation);
            }

            return new IssuedNumber(ready.Number, ready.Written);
        }

        var series = await HoldAsync(seriesId, SeriesUse.Specimens, cancellation);
        if (series.IsRefused)
        {
            return series.Refusals.ToList();
        }

        // Who held the counter before may have laid some.
        if (await TakeReadyAsync(seriesId, cancellation) is { } meanwhile)
        {
            return new IssuedNumber(meanwhile.Number, meanwhile.Written);
        }

        var laid = await LayAsync(series.Value, cancellation);
        if (laid.IsRefused)
        {
            return laid.Refusals.ToList();
        }

        var first = laid.Value[0];
        db.Remove(first);
        await LayAsync(series.Value, cancellation);
        return new IssuedNumber(first.Number, first.Written);
    }

    // One statement: a row read and then removed would be a second one, while everybody is numbering. What is withheld
    // says so in its own row, so that who takes one while the series is being closed sees it in time.
    private async Task<Taken?> TakeReadyAsync(long seriesId, CancellationToken cancellation)
    {
        var sql = $$"""
            DELETE FROM ready_number WHERE series_id = {0} AND number = (
                SELECT number FROM ready_number WHERE series_id = {0} AND NOT is_withheld
                ORDER BY number LIMIT 1 {{db.Kind.UnlessTaken}})
            RETURNING number AS "Number", written AS "Written", is_first_of_laying AS "IsFirstOfLaying"
            """;
        var taken = await db.Database.SqlQueryRaw<Taken>(sql, seriesId).ToListAsync(cancellation);
        return taken.SingleOrDefault();
    }

    // Never waits: who registers a roll holds the counter and waits for those who have taken a number. A laying that is
    // left out here is made by the first who finds nothing ready.
    private async Task LayAheadAsync(long seriesId, CancellationToken cancellation)
    {
        var series = await db.Series.HeldUnlessTaken()
            .SingleOrDefaultAsync(series => series.Id == seriesId, cancellation);
        if (series is not null)
        {
            await LayAsync(series, cancellation);
        }
    }

    private async Task<Outcome<IReadOnlyList<ReadyNumber>>> LayAsync(
        NumberSeries series, CancellationToken cancellation)
    {
        var next = series.Next;
        var ahead = await db.Rolls.Where(roll => roll.SeriesId == series.Id && roll.Last >= next)
            .ToListAsync(cancellation);
        var laid = series.LayReady(ahead);
        if (!laid.IsRefused)
        {
            db.AddRange(laid.Value);
        }

        return laid;
    }

    private sealed record Taken(long Number, string Written, bool IsFirstOfLaying);
}
