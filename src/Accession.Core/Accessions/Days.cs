using System.Globalization;

namespace Accession.Core.Accessions;

/// <summary>Days in sentences.</summary>
public static class Days
{
    /// <summary>A day that cannot be misread: 5 Mar 2026.</summary>
    /// <param name="day">The day.</param>
    public static string Words(DateOnly day) => day.ToString("d MMM yyyy", CultureInfo.InvariantCulture);
}
