using System.Globalization;

namespace Accession.Evaluation;

/// <summary>How many cases came out as wanted.</summary>
/// <param name="Right">The cases that did.</param>
/// <param name="Total">All cases.</param>
internal readonly record struct Score(int Right, int Total)
{
    /// <summary>A line for a person.</summary>
    public override string ToString() => Total == 0
        ? "No cases."
        : string.Create(CultureInfo.InvariantCulture, $"{Right} of {Total} right ({100.0 * Right / Total:0.0} %).");
}
