using System.ComponentModel.DataAnnotations;

namespace Accession.Server.Mounting;

/// <summary>The paper that labels are printed on.</summary>
public enum LabelPaper
{
    /// <summary>210 by 297 mm (ISO 216).</summary>
    A4,

    /// <summary>215.9 by 279.4 mm, the North American letter.</summary>
    Letter,
}

/// <summary>Settings of printed labels, read from the section <c>Labels</c>. All sizes are in millimetres.</summary>
public sealed class LabelOptions
{
    /// <summary>The paper. The default is A4.</summary>
    public LabelPaper Paper { get; set; } = LabelPaper.A4;

    /// <summary>How wide a specimen label is. The default is 105.</summary>
    [Range(50, 200)]
    public int WidthMillimetres { get; set; } = 105;

    /// <summary>How high a specimen label is at least; one with much to say is higher. The default is 70.</summary>
    [Range(30, 270)]
    public int HeightMillimetres { get; set; } = 70;

    /// <summary>How wide a determination slip is. The default is 105.</summary>
    [Range(50, 200)]
    public int SlipWidthMillimetres { get; set; } = 105;

    /// <summary>How high a determination slip is at least. The default is 35.</summary>
    [Range(20, 270)]
    public int SlipHeightMillimetres { get; set; } = 35;

    /// <summary>How wide a bare barcode is. The default is 52.</summary>
    [Range(35, 200)]
    public int BarcodeWidthMillimetres { get; set; } = 52;

    /// <summary>How high a bare barcode is. The default is 21.</summary>
    [Range(15, 100)]
    public int BarcodeHeightMillimetres { get; set; } = 21;

    internal LabelSheet SheetOf(LabelKind kind) => kind switch
    {
        LabelKind.Slips => new(Paper, SlipWidthMillimetres, SlipHeightMillimetres),
        LabelKind.Barcodes => new(Paper, BarcodeWidthMillimetres, BarcodeHeightMillimetres),
        _ => new(Paper, WidthMillimetres, HeightMillimetres),
    };
}
