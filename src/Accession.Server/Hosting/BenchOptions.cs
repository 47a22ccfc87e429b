using System.ComponentModel.DataAnnotations;

namespace Accession.Server.Hosting;

/// <summary>Settings of the benches, read from the section <c>Bench</c>.</summary>
public sealed class BenchOptions
{
    /// <summary>
    /// After how many minutes without a scan a badge says no more who is working. The default is 15.
    /// </summary>
    [Range(1, 840)]
    public int BadgeEndsAfterMinutes { get; set; } = 15;

    internal TimeSpan BadgeEndsAfter => TimeSpan.FromMinutes(BadgeEndsAfterMinutes);
}
