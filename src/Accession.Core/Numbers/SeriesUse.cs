namespace Accession.Core.Numbers;

/// <summary>What the numbers of a series are put on.</summary>
public enum SeriesUse
{
    /// <summary>On specimens, for good: catalog numbers, which are also the barcodes.</summary>
    Specimens,

    /// <summary>On lots as they are taken into the register: accession numbers.</summary>
    Accessions,

    /// <summary>
    /// On sheets that were taken over, where the number follows no series of ours. There is one such series; it has no
    /// pattern and issues nothing, and its counter counts the different numbers that came.
    /// </summary>
    FromBefore,
}
