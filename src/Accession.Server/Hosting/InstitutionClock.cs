using System.Globalization;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>Times as people of this institution read them: "5 Mar 2026, 14:05", in its own zone.</summary>
public sealed class InstitutionClock(IOptions<InstitutionOptions> options)
{
    private readonly TimeZoneInfo _zone = options.Value.Zone;

    public string Show(DateTime utc) => Local(utc).ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    public string ShowDay(DateTime utc) => Local(utc).ToString("d MMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>The day it is here at a time; accession numbers take their year from it.</summary>
    public DateOnly Day(DateTime utc) => DateOnly.FromDateTime(Local(utc));

    /// <summary>
    /// A time as it was written here, in UTC. An hour that a change of the clocks skips is taken as the one after it.
    /// </summary>
    public DateTime Utc(DateTime local)
    {
        var here = DateTime.SpecifyKind(local, DateTimeKind.Unspecified);
        return TimeZoneInfo.ConvertTimeToUtc(_zone.IsInvalidTime(here) ? here.AddHours(1) : here, _zone);
    }

    private DateTime Local(DateTime utc) => TimeZoneInfo.ConvertTimeFromUtc(utc, _zone);
}
