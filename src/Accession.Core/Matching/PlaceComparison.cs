namespace Accession.Core.Matching;

/// <summary>Compares places by distance, by words and by region, the surest first.</summary>
internal static class PlaceComparison
{
    private const double SamePoint = 200;
    private const double NearPoint = 2_000;

    /// <summary>What a point without a stated uncertainty is taken to have, in metres. Judgement.</summary>
    private const int UnstatedUncertainty = 5_000;

    private const double SameShare = 0.6;
    private const double SimilarShare = 0.4;
    private const int FewWords = 2;
    private const int ManyWords = 4;

    /// <summary>
    /// Points of one county that were put on the map later, without a radius, contradict only beyond this, in metres.
    /// Judgement.
    /// </summary>
    private const double AcrossCounty = 50_000;

    /// <summary>How two places stand to each other.</summary>
    public static FieldEvidence Between(in PlaceMark one, in PlaceMark other)
    {
        var hasPoints = one.HasPoint && other.HasPoint && !one.IsRegionOnly && !other.IsRegionOnly;
        var distance = hasPoints ? one.MetersTo(in other) : double.NaN;
        if (distance <= SamePoint)
        {
            return new(Agreement.Same, Slip.WithinTwoHundredMeters);
        }

        var words = Words(one.Words, other.Words);
        if (words.Agreement == Agreement.Same && !IsOtherRegion(one, other))
        {
            return words;
        }

        if (distance <= NearPoint)
        {
            return new(Agreement.Near, Slip.WithinTwoKilometers);
        }

        if (IsOtherRegion(one, other))
        {
            return words.Agreement == Agreement.Same && Math.Min(one.Words.Count, other.Words.Count) >= ManyWords
                ? new(Agreement.Near, Slip.SameWordsElsewhere)
                : new(Agreement.Contradicts, Slip.OtherRegion);
        }

        var isSameCounty = one.County != 0 && one.County == other.County;
        var isOtherCounty = one.County != 0 && other.County != 0 && one.County != other.County;
        if (hasPoints)
        {
            return isOtherCounty ? new(Agreement.Contradicts, Slip.OtherCounty)
                : distance <= Uncertainty(one) + Uncertainty(other) + NearPoint
                    ? words.Agreement == Agreement.Near ? words : new(Agreement.Near, Slip.WithinUncertainty)
                : words.Agreement == Agreement.Near ? words
                : isSameCounty && IsCoordinateSlip(one, other) ? new(Agreement.Near, Slip.CoordinateSlip)
                : isSameCounty && distance <= AcrossCounty && IsUnstated(one, other)
                    ? new(Agreement.Near, Slip.SameCounty)
                : new(Agreement.Contradicts, Slip.TooFarApart);
        }

        return words.Agreement == Agreement.Near ? words
            : isOtherCounty ? new(Agreement.Contradicts, Slip.OtherCounty)
            : isSameCounty ? new(Agreement.Near, Slip.SameCounty)
            : new(Agreement.Missing, words.Agreement == Agreement.Contradicts ? Slip.OtherWords : Slip.None);
    }

    private static bool IsUnstated(in PlaceMark one, in PlaceMark other) =>
        one.UncertaintyInMeters == 0 || other.UncertaintyInMeters == 0;

    private static int Uncertainty(in PlaceMark place) =>
        place.UncertaintyInMeters == 0 ? UnstatedUncertainty : place.UncertaintyInMeters;

    private static bool IsOtherRegion(in PlaceMark one, in PlaceMark other) =>
        (one.Country != 0 && other.Country != 0 && one.Country != other.Country)
        || (one.State != 0 && other.State != 0 && one.State != other.State);

    private static FieldEvidence Words(PlaceWords one, PlaceWords other)
    {
        var least = Math.Min(one.Count, other.Count);
        if (least == 0)
        {
            return new(Agreement.Missing);
        }

        // What two unrelated texts of such lengths would have in common by chance is taken off.
        var chance = (double)one.Count * other.Count / 128;
        var share = (one.InCommon(other) - chance) / Math.Max(1, least - chance);
        return least < FewWords && share >= SameShare && Math.Max(one.Count, other.Count) > FewWords
                ? new(Agreement.Near, Slip.SimilarWords)
            : share >= SameShare ? new(Agreement.Same, Slip.SameWords)
            : share >= SimilarShare ? new(Agreement.Near, Slip.SimilarWords)
            : new(Agreement.Contradicts);
    }

    // A lost sign, a wrong whole degree, or latitude and longitude in each other's column.
    private static bool IsCoordinateSlip(in PlaceMark one, in PlaceMark other)
    {
        double a = one.Latitude, b = one.Longitude, c = other.Latitude, d = other.Longitude;
        return (IsSame(a, c) && (IsSame(b, -d) || IsWholeOff(b, d)))
            || (IsSame(b, d) && (IsSame(a, -c) || IsWholeOff(a, c)))
            || (IsSame(Math.Abs(a), Math.Abs(d)) && IsSame(Math.Abs(b), Math.Abs(c)));
    }

    private static bool IsSame(double one, double other) => Math.Abs(one - other) < 0.02;

    private static bool IsWholeOff(double one, double other)
    {
        var off = Math.Abs(one - other);
        return off > 0.5 && Math.Abs(off - Math.Round(off)) < 0.002;
    }
}
