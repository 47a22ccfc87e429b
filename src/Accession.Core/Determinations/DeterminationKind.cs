namespace Accession.Core.Determinations;

/// <summary>What somebody said of a specimen's name.</summary>
public enum DeterminationKind
{
    /// <summary>The name that came with the list.</summary>
    Listed,

    /// <summary>A name for what the plant is (determinavit).</summary>
    NewName,

    /// <summary>Agreement with a name that was given before (confirmavit).</summary>
    Confirmation,

    /// <summary>The same plant under the name that is in use now: nobody looked at the plant anew.</summary>
    NewerName,

    /// <summary>
    /// The plant is not what that name says, and no other name is given (haud, non). It names nothing, so it never
    /// counts, and no archive has it: an identification of Darwin Core gives a name.
    /// </summary>
    Rejection,
}
