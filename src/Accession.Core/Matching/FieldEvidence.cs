namespace Accession.Core.Matching;

/// <summary>How one field agrees, and the name of what tells both sides apart.</summary>
/// <param name="Agreement">How both sides stand to each other.</param>
/// <param name="Slip">What tells them apart, or in what they agree; none where it has no name.</param>
public readonly record struct FieldEvidence(Agreement Agreement, Slip Slip = Slip.None)
{
    /// <summary>How many bits it takes in <see cref="Evidence.Packed"/>.</summary>
    internal const int Bits = 8;

    internal long Packed => ((long)Agreement << 6) | (long)Slip;

    internal static FieldEvidence Unpacked(long bits) => new((Agreement)((bits >> 6) & 3), (Slip)(bits & 63));
}
