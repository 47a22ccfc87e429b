using Accession.Core.Numbers;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Numbers;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Receiving;

/// <summary>Issues the number of a lot, within the act that takes it in or over.</summary>
public sealed class AccessionNumbers(AccessionDb db, NumberIssuer numbers, InstitutionClock calendar)
{
    public async Task<Outcome<string>> NextAsync(DateTime at, CancellationToken cancellation)
    {
        var seriesId = await db.Series.Where(series => series.Use == SeriesUse.Accessions)
            .OrderBy(series => series.Id).Select(series => (long?)series.Id).FirstOrDefaultAsync(cancellation);
        if (seriesId is null)
        {
            return new Refusal(RefusalKind.Conflict,
                "There is no series for accession numbers yet. Begin one on the page Series and rolls.");
        }

        var number = await numbers.NextForLotAsync(seriesId.Value, calendar.Day(at).Year, cancellation);
        return number.IsRefused ? number.Refusals.ToList() : number.Value.Written;
    }
}
