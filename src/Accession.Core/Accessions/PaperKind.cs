namespace Accession.Core.Accessions;

/// <summary>What a paper that came with a batch is. Common practice of receiving.</summary>
public enum PaperKind
{
    /// <summary>The sender's list of what is in the parcel, with its count and purpose.</summary>
    Transmittal,

    /// <summary>By which the owner gives the sheets for good.</summary>
    DeedOfGift,

    /// <summary>A collecting permit, a landowner's consent, or another permit.</summary>
    Permit,

    /// <summary>A paper under the convention on trade in endangered species.</summary>
    Cites,

    /// <summary>What a plant protection office certifies.</summary>
    Phytosanitary,

    /// <summary>A letter.</summary>
    Letter,

    /// <summary>Anything else; the remark says what.</summary>
    Other,
}
