using Accession.Core.Localities;
using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>
/// A fact of an accepted record was corrected: what stood there and what stands there since. Entries are added, never
/// edited; the first of a field keeps what was taken in.
/// </summary>
public sealed class Correction
{
    private Correction()
    {
    }

    internal Correction(Gathering gathering, CorrectedField field, string before, string after, Act act)
    {
        (GatheringId, Field, Act) = (gathering.Id, field, act);
        if (field.IsOfExactPlace())
        {
            Exact = new(before, after);
        }
        else
        {
            (Before, After) = (before, after);
        }
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The gathering.</summary>
    public long GatheringId { get; private set; }

    /// <summary>What was corrected.</summary>
    public CorrectedField Field { get; private set; }

    /// <summary>What stood there before; empty where it tells the exact place, which is kept apart.</summary>
    public string Before { get; private set; } = "";

    /// <summary>What stands there since; empty where it tells the exact place, which is kept apart.</summary>
    public string After { get; private set; } = "";

    /// <summary>The act: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act whose correction this one takes back; null where it takes none back.</summary>
    public long? TakesBackActId { get; private set; }

    internal ExactCorrection? Exact { get; private set; }

    /// <summary>Says that it takes back what an earlier act corrected.</summary>
    /// <param name="actId">That act.</param>
    public void TakeBack(long actId) => TakesBackActId = actId;
}
