using Accession.Core.Outcomes;

namespace Accession.Core.Parcels;

/// <summary>What is written down of a parcel when it is tagged at the door.</summary>
/// <param name="FromWhom">Who sent or brought it, as on the parcel; at most 200 characters.</param>
/// <param name="CameOn">The day it came.</param>
/// <param name="Carrier">Who carried it: the post, a courier, a person; may be empty.</param>
/// <param name="Boxes">How many boxes, 0 to 999.</param>
/// <param name="Bundles">How many bundles, 0 to 999.</param>
/// <param name="Condition">How it arrived: dry, crushed, wet, insects seen; may be empty.</param>
/// <param name="Standing">Where it stands in quarantine, in words; empty where a place is chosen.</param>
/// <param name="PlaceId">The place where it stands; null where that is said in words.</param>
public sealed record ParcelDetails(
    string FromWhom, DateOnly? CameOn, string Carrier, int Boxes, int Bundles, string Condition, string Standing,
    long? PlaceId = null)
{
    /// <summary>The most characters of a name, a carrier or a place.</summary>
    public const int LongestName = 200;

    /// <summary>The most characters about the condition.</summary>
    public const int LongestCondition = 1000;

    /// <summary>Why this cannot be written on a tag, with the field each reason belongs to.</summary>
    /// <param name="today">The day it is here.</param>
    public IEnumerable<(string Field, Refusal Refusal)> WhyNot(DateOnly today)
    {
        if (FromWhom.Length is 0 or > LongestName)
        {
            yield return (nameof(FromWhom), new(RefusalKind.Invalid,
                $"Write who sent or brought the parcel, in at most {LongestName} characters."));
        }

        if (CameOn is null || CameOn > today)
        {
            yield return (nameof(CameOn), new(RefusalKind.Invalid, "Write the day the parcel came, not after today."));
        }

        if (Boxes is < 0 or > 999 || Bundles is < 0 or > 999 || Boxes + Bundles == 0)
        {
            yield return (nameof(Boxes), new(RefusalKind.Invalid,
                "Count the boxes and the bundles: one at least, and at most 999 of each."));
        }

        if (Standing.Length > LongestName || (Standing.Length == 0 && PlaceId is null))
        {
            yield return (nameof(Standing), new(RefusalKind.Invalid,
                $"Choose where it stands in quarantine, or write it in at most {LongestName} characters."));
        }

        if (Carrier.Length > LongestName || Condition.Length > LongestCondition)
        {
            yield return (nameof(Condition), new(RefusalKind.Invalid,
                $"The carrier takes {LongestName} characters and the condition {LongestCondition}."));
        }
    }
}
