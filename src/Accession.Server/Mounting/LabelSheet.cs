using System.Globalization;

namespace Accession.Server.Mounting;

/// <summary>What is printed.</summary>
public enum LabelKind
{
    /// <summary>Specimen labels.</summary>
    Labels,

    /// <summary>Determination slips: the name somebody gave later, who and when.</summary>
    Slips,

    /// <summary>Barcodes alone.</summary>
    Barcodes,
}

/// <summary>How labels of one size lie on a sheet of paper. All sizes are in millimetres.</summary>
public sealed record LabelSheet(LabelPaper Paper, int Width, int Height)
{
    public int Columns => Math.Max(1, (int)(PaperWidth / Width));

    public int Rows => Math.Max(1, (int)(PaperHeight / Height));

    public int OfAPage => Columns * Rows;

    private double PaperWidth => Paper == LabelPaper.A4 ? 210 : 215.9;

    private double PaperHeight => Paper == LabelPaper.A4 ? 297 : 279.4;

    /// <summary>How many pages so many labels take, when none is higher than it should be.</summary>
    public int Pages(int labels) => (labels + OfAPage - 1) / OfAPage;

    /// <summary>
    /// The style that puts them there. It is asked for by address, since the pages' policy lets no style stand in a
    /// page.
    /// </summary>
    public string Style => string.Create(CultureInfo.InvariantCulture, $$"""
        @page { size: {{(Paper == LabelPaper.A4 ? "A4" : "letter")}}; margin: {{Above}}mm {{Beside}}mm; }
        .label-sheet { --columns: {{Columns}}; --label-width: {{Width}}mm; --label-height: {{Height}}mm; }

        """);

    private double Above => Margin(PaperHeight, (Rows * Height) + 1);

    private double Beside => Margin(PaperWidth, Columns * Width);

    // Rounded down, and with a millimetre to spare below, or the last row would find no room.
    private static double Margin(double paper, int taken) => Math.Max(0, Math.Floor((paper - taken) * 5) / 10);
}
