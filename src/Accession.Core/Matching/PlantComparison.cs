namespace Accession.Core.Matching;

/// <summary>Compares plant names. A difference never breaks a pair: duplicates are named by different people.</summary>
internal static class PlantComparison
{
    /// <summary>How two plants stand to each other.</summary>
    public static FieldEvidence Between(PlantMark one, PlantMark other)
    {
        var isOtherFamily = one.Family != 0 && other.Family != 0 && one.Family != other.Family;
        if (one.Genus == 0 || other.Genus == 0)
        {
            return isOtherFamily ? new(Agreement.Contradicts, Slip.OtherFamily) : new(Agreement.Missing);
        }

        if (one.Genus != other.Genus)
        {
            return isOtherFamily ? new(Agreement.Contradicts, Slip.OtherFamily)
                : one.Species != 0 && one.Species == other.Species ? new(Agreement.Near, Slip.OtherGenusSameEpithet)
                : new(Agreement.Contradicts, Slip.OtherGenus);
        }

        return one.Species == 0 || other.Species == 0
                ? new(Agreement.Near, Slip.GenusOnly)
            : one.Species != other.Species ? new(Agreement.Contradicts, Slip.OtherSpecies)
            : one.Infraspecific == other.Infraspecific ? new(Agreement.Same)
            : one.Infraspecific == 0 || other.Infraspecific == 0 ? new(Agreement.Near, Slip.LessFinelyNamed)
            : new(Agreement.Near, Slip.OtherInfraspecific);
    }
}
