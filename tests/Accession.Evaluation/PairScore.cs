using System.Globalization;
using System.Text.Json.Serialization;

namespace Accession.Evaluation;

/// <summary>How well pairs, or rows of a batch, were found.</summary>
/// <param name="Found">True ones that were found: the same gathering, or a repeat.</param>
/// <param name="Wrong">Those that were found and are not true.</param>
/// <param name="Missed">True ones that were neither found nor possible.</param>
/// <param name="Possible">True ones that were found possible.</param>
internal sealed record PairScore(int Found, int Wrong, int Missed, int Possible)
{
    /// <summary>The share of what was found that is true; 1 when nothing was found.</summary>
    public double Precision => Found + Wrong == 0 ? 1 : (double)Found / (Found + Wrong);

    /// <summary>The share of what is true that was found; 1 when nothing is true.</summary>
    public double Recall => Found + Missed + Possible == 0 ? 1 : (double)Found / (Found + Missed + Possible);

    /// <summary>Of the rows that are number clashes, the share found as such; null outside batches.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? ClashRecall { get; init; }

    /// <summary>Of the rows that are new, the share found as number clashes; null outside batches.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? ClashOnNew { get; init; }

    /// <summary>A line for a person.</summary>
    public override string ToString()
    {
        var all = Found + Missed + Possible;
        var text = string.Create(CultureInfo.InvariantCulture,
            $"precision {Precision:0.000}, recall {Recall:0.000}: {Found} of {all} found, {Wrong} wrong, "
            + $"{Possible} possible, {Missed} missed");
        return ClashRecall is null ? $"{text}." : string.Create(CultureInfo.InvariantCulture,
            $"{text}; number clashes recall {ClashRecall:0.000}, on new rows {ClashOnNew:0.000}.");
    }
}
