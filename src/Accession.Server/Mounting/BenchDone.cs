using Accession.Core.Specimens;

namespace Accession.Server.Mounting;

/// <summary>What a scan at the step bench did.</summary>
/// <param name="Code">The code of the part, or the tag of the parcel.</param>
/// <param name="CatalogNumber">The sheet; empty for a parcel.</param>
/// <param name="Repeat">Which of the sheets that bear the number.</param>
/// <param name="Label">Collector and number; of a parcel, from whom it came.</param>
/// <param name="Name">The current name.</param>
/// <param name="State">What was done, in one or two words.</param>
/// <param name="Said">What became of it, behind its code: "is mounted".</param>
/// <param name="IsTakenBack">Whether something was taken back rather than done.</param>
/// <param name="Next">What waits now; null when nothing does.</param>
public sealed record BenchDone(
    string Code, string CatalogNumber, int Repeat, string Label, string Name, string State, string Said,
    bool IsTakenBack, Step? Next);
