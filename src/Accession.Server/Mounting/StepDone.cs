using Accession.Core.Specimens;

namespace Accession.Server.Mounting;

/// <summary>What a scan at the step bench did.</summary>
/// <param name="Code">The code of the part.</param>
/// <param name="CatalogNumber">The sheet.</param>
/// <param name="Repeat">Which of the sheets that bear the number.</param>
/// <param name="Label">Collector and number.</param>
/// <param name="Name">The current name.</param>
/// <param name="Step">The step.</param>
/// <param name="IsTakenBack">Whether it was taken back rather than done.</param>
/// <param name="Next">What waits now; null when nothing does.</param>
public sealed record StepDone(
    string Code, string CatalogNumber, int Repeat, string Label, string Name, Step Step, bool IsTakenBack, Step? Next);
