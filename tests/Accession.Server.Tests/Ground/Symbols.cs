using System.Globalization;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using ZXing;
using ZXing.Common;

namespace Accession.Server.Tests.Ground;

/// <summary>Reads the symbols of a page as a scanner does: from what is drawn, with a decoder that did not draw it.</summary>
internal static partial class Symbols
{
    private const int Scale = 4;

    /// <summary>The text in a symbol; the test fails where none can be read.</summary>
    public static string Read(IElement svg)
    {
        var box = svg.GetAttribute("viewBox")!.Split(' ').Select(part => int.Parse(part, CultureInfo.InvariantCulture)).ToList();
        // A QR symbol has its quiet zone in it already or not; more white does no harm.
        var (width, height) = ((box[2] + 8) * Scale, (box[3] + 8) * Scale);
        var pixels = Enumerable.Repeat((byte)255, width * height).ToArray();
        foreach (Match bar in Bar().Matches(svg.QuerySelector("path")!.GetAttribute("d")!))
        {
            var (x, y, w, h) = (Part(bar, 1), Part(bar, 2), Part(bar, 3), Part(bar, 4));
            for (var row = (y + 4) * Scale; row < (y + 4 + h) * Scale; row++)
            {
                Array.Fill(pixels, (byte)0, (row * width) + ((x + 4) * Scale), w * Scale);
            }
        }

        var reader = new BarcodeReaderGeneric
        {
            Options = new DecodingOptions { PossibleFormats = [BarcodeFormat.CODE_128, BarcodeFormat.QR_CODE], TryHarder = true },
        };
        var found = reader.Decode(new RGBLuminanceSource(pixels, width, height, RGBLuminanceSource.BitmapFormat.Gray8));
        Assert.True(found is not null, $"No symbol can be read: {svg.OuterHtml}");
        return found.Text;
    }

    private static int Part(Match bar, int group) => int.Parse(bar.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("M([0-9]+) ([0-9]+)h([0-9]+)v([0-9]+)")]
    private static partial Regex Bar();
}
