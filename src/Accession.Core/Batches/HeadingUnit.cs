namespace Accession.Core.Batches;

/// <summary>The unit of length that a heading names for its whole column, as in "Elev. (ft)".</summary>
public enum HeadingUnit
{
    /// <summary>Metres.</summary>
    Metre,

    /// <summary>Kilometres.</summary>
    Kilometre,

    /// <summary>Feet of 0.3048 metres.</summary>
    Foot,

    /// <summary>Miles of 1,609.344 metres.</summary>
    Mile,
}
