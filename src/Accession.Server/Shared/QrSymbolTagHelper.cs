using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using ZXing;
using ZXing.QrCode;

namespace Accession.Server.Shared;

/// <summary>
/// Draws a text as a QR symbol (ISO/IEC 18004), for a camera: <c>&lt;qr-symbol of="…" says="what it is" /&gt;</c>.
/// </summary>
[HtmlTargetElement("qr-symbol", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class QrSymbolTagHelper : TagHelper
{
    /// <summary>The text in the symbol.</summary>
    public string? Of { get; set; }

    /// <summary>What it is, for those who do not see it.</summary>
    public string Says { get; set; } = "";

    /// <inheritdoc />
    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var modules = new QRCodeWriter().encode(Of ?? "", BarcodeFormat.QR_CODE, 0, 0);
        SymbolFrame.Draw(output, "qr-symbol", Says, modules.Width, modules.Height, Squares(modules));
    }

    private static string Squares(ZXing.Common.BitMatrix modules)
    {
        var path = new StringBuilder();
        for (var y = 0; y < modules.Height; y++)
        {
            for (var x = 0; x < modules.Width; x++)
            {
                if (modules[x, y])
                {
                    path.Append(CultureInfo.InvariantCulture, $"M{x} {y}h1v1h-1z");
                }
            }
        }

        return path.ToString();
    }
}
