using Accession.Core.Batches;
using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>
/// Sheets that came with an accession and do not stay: they take no catalog number and are counted under their
/// gathering, with where they go and why.
/// </summary>
public sealed class SetAside
{
    private SetAside()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The gathering they are of.</summary>
    public long GatheringId { get; private set; }

    /// <summary>The accession they came with.</summary>
    public long AccessionId { get; private set; }

    /// <summary>The row of the list that they stand in.</summary>
    public long BatchRowId { get; private set; }

    /// <summary>How many sheets.</summary>
    public int Sheets { get; private set; }

    /// <summary>Where they go.</summary>
    public RowDecision Decision { get; private set; }

    /// <summary>The act of the curator who decided it: who, when and why.</summary>
    public long ActId { get; private set; }

    /// <summary>The act of the curator who decided it: who, when and why.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Counts the sheets of a row under the gathering they are of.</summary>
    /// <param name="row">The row, with its decision.</param>
    /// <param name="accessionId">The accession they came with.</param>
    /// <param name="gatheringId">The gathering they are of.</param>
    /// <param name="actId">The act of the curator who decided it.</param>
    /// <exception cref="ArgumentException">The row's sheets do not leave.</exception>
    public static SetAside Of(BatchRow row, long accessionId, long gatheringId, long actId)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.Decision is { } decision && decision.Leaves()
            ? new()
            {
                GatheringId = gatheringId,
                AccessionId = accessionId,
                BatchRowId = row.Id,
                Sheets = row.Sheets,
                Decision = decision,
                ActId = actId,
            }
            : throw new ArgumentException("The sheets of this row do not leave.", nameof(row));
    }
}
