using Accession.Core.Gatherings;

namespace Accession.Core.Localities;

/// <summary>
/// What a correction changed of the exact place. It stands in a table of its own whether the place is protected or not:
/// it may be protected tomorrow. It has nothing that a page could print; only storage reads it.
/// </summary>
public sealed class ExactCorrection
{
    private ExactCorrection()
    {
    }

    internal ExactCorrection(string before, string after) => (Before, After) = (before, after);

    /// <summary>The correction.</summary>
    public long CorrectionId { get; private set; }

    internal Correction Correction { get; private set; } = null!;

    internal string Before { get; private set; } = "";

    internal string After { get; private set; } = "";
}
