using Accession.Core.Outcomes;

namespace Accession.Core.Parcels;

/// <summary>
/// Numbers that are on paper and were given out after the backup from which the register was put back: what they stood
/// on is not in it, and they are never issued again.
/// </summary>
public sealed class TagsLost
{
    private TagsLost()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>What they are written on.</summary>
    public TagKind Kind { get; private set; }

    /// <summary>The year of the tags; of loads that of the counter.</summary>
    public int Year { get; private set; }

    /// <summary>The first of them.</summary>
    public int First { get; private set; }

    /// <summary>The last of them.</summary>
    public int Last { get; private set; }

    /// <summary>The act of whoever looked.</summary>
    public long ActId { get; private set; }

    /// <summary>The act of whoever looked.</summary>
    public Act Act { get; private set; } = null!;

    internal static TagsLost Of(TagKind kind, int year, int first, int last, Act act) =>
        new() { Kind = kind, Year = year, First = first, Last = last, Act = act };
}
