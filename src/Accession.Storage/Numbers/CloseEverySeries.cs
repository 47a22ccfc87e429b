using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Numbers;

/// <summary>
/// Closes every series, as the act of restoring a register must: it may have forgotten numbers that are on paper. A
/// series that is closed already is closed anew. What lies ready is withheld, so nobody is given it meanwhile.
/// </summary>
public sealed class CloseEverySeries(AccessionDb db)
{
    /// <summary>Closes them within an act and a transaction that are under way.</summary>
    /// <param name="act">The act of the restore; its reason is what whoever is refused a number will read.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>How many series were closed.</returns>
    public async Task<Outcome<int>> CloseAsync(Act act, CancellationToken cancellation)
    {
        // Held in the order of their keys: two who closed all at once would otherwise wait for each other.
        // The numbers from before are not issued, so there is nothing to close.
        var all = await db.Series.Held().Where(series => series.Use != SeriesUse.FromBefore)
            .OrderBy(series => series.Id).ToListAsync(cancellation);
        foreach (var series in all)
        {
            var closed = series.Close(SeriesEntryKind.ClosedAfterRestore, act);
            if (closed.IsRefused)
            {
                return closed.Refusals.ToList();
            }

            db.Add(closed.Value);
        }

        // There are a few series, but each may have numbers ready: those in one statement.
        await db.ReadyNumbers.ExecuteUpdateAsync(
            ready => ready.SetProperty(number => number.IsWithheld, true), cancellation);
        return all.Count;
    }
}
