namespace Accession.Core.Matching;

/// <summary>How one field of two rows stands to the other. The values are stored; do not renumber.</summary>
public enum Agreement
{
    /// <summary>One side says nothing, or nothing that could be compared.</summary>
    Missing = 0,

    /// <summary>Both say the same, in whatever spelling.</summary>
    Same = 1,

    /// <summary>Not the same, but near, or one side says less.</summary>
    Near = 2,

    /// <summary>Both cannot be right.</summary>
    Contradicts = 3,
}
