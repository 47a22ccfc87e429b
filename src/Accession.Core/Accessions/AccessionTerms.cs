namespace Accession.Core.Accessions;

/// <summary>
/// On what terms a lot became ours. The kinds of transaction of US Interior Departmental Manual 411, volume II,
/// chapter 2 (accessioning).
/// </summary>
public enum AccessionTerms
{
    /// <summary>Given for good; title passed by a deed of gift.</summary>
    Gift,

    /// <summary>Received for specimens sent, or owed, in return.</summary>
    Exchange,

    /// <summary>Collected by our own people, or for a project that deposits here.</summary>
    FieldCollection,

    /// <summary>Moved here from another part of the same owner.</summary>
    Transfer,

    /// <summary>Bought.</summary>
    Purchase,

    /// <summary>
    /// Taken over with the numbers on the sheets: held here, or by a herbarium that joined this one, before there was
    /// this register. Not of that manual; how each sheet once came is not known here.
    /// </summary>
    TakenOver,
}
