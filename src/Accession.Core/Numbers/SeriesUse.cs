namespace Accession.Core.Numbers;

/// <summary>What the numbers of a series are put on.</summary>
public enum SeriesUse
{
    /// <summary>On specimens, for good: catalog numbers, which are also the barcodes.</summary>
    Specimens,

    /// <summary>On lots as they are taken into the register: accession numbers.</summary>
    Accessions,
}
