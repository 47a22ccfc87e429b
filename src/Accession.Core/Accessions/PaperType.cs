namespace Accession.Core.Accessions;

/// <summary>What a paper's file is by its content, whatever its name says.</summary>
public enum PaperType
{
    /// <summary>A document in PDF (ISO 32000).</summary>
    Pdf,

    /// <summary>A picture in JPEG.</summary>
    Jpeg,

    /// <summary>A picture in PNG.</summary>
    Png,

    /// <summary>A picture in TIFF.</summary>
    Tiff,

    /// <summary>Plain text in UTF-8.</summary>
    Text,
}
