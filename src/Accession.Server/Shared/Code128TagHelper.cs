using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using ZXing;
using ZXing.OneD;

namespace Accession.Server.Shared;

/// <summary>
/// Draws a text as a Code 128 symbol (ISO/IEC 15417), for scanners of one line: <c>&lt;code-128 of="…" says="what it
/// is" /&gt;</c>. A text that it cannot hold becomes a QR symbol.
/// </summary>
[HtmlTargetElement("code-128", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class Code128TagHelper : TagHelper
{
    // The symbol asks for a clear zone of ten modules at either end (ISO/IEC 15417, from memory).
    private const int Quiet = 10;
    private const int Height = 40;

    /// <summary>The most characters; a longer symbol is wider than a card.</summary>
    public const int Longest = 32;

    /// <summary>The text in the symbol.</summary>
    public string? Of { get; set; }

    /// <summary>What it is, for those who do not see it.</summary>
    public string Says { get; set; } = "";

    /// <summary>Whether the symbol can hold a text.</summary>
    public static bool Holds(string? text) =>
        text is { Length: > 0 and <= Longest } && text.All(one => one is >= ' ' and <= '~');

    /// <inheritdoc />
    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        if (!Holds(Of))
        {
            new QrSymbolTagHelper { Of = Of, Says = Says }.Process(context, output);
            return;
        }

        var bars = new Code128Writer().encode(Of!, BarcodeFormat.CODE_128, 0, 1, new Dictionary<EncodeHintType, object>
        {
            [EncodeHintType.MARGIN] = 0,
        });
        SymbolFrame.Draw(output, "bar-symbol", Says, bars.Width + (2 * Quiet), Height, Bars(bars));
        output.Attributes.SetAttribute("preserveAspectRatio", "none");
    }

    // A bar of several modules is one stroke, so that no hair line parts it on paper.
    private static string Bars(ZXing.Common.BitMatrix modules)
    {
        var path = new StringBuilder();
        for (var x = 0; x < modules.Width; x++)
        {
            var from = x;
            while (x < modules.Width && modules[x, 0])
            {
                x++;
            }

            if (x > from)
            {
                path.Append(CultureInfo.InvariantCulture, $"M{from + Quiet} 0h{x - from}v{Height}h-{x - from}z");
            }
        }

        return path.ToString();
    }
}
