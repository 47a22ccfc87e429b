using System.Globalization;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Accession.Server.Shared;

/// <summary>What every printed symbol stands in: an image with a name, dark on white.</summary>
internal static class SymbolFrame
{
    /// <param name="output">The element.</param>
    /// <param name="kind">Its class.</param>
    /// <param name="says">What it is, for those who do not see it.</param>
    /// <param name="width">In modules.</param>
    /// <param name="height">In modules.</param>
    /// <param name="path">What is dark.</param>
    public static void Draw(TagHelperOutput output, string kind, string says, int width, int height, string path)
    {
        output.TagName = "svg";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", kind);
        output.Attributes.SetAttribute("role", "img");
        output.Attributes.SetAttribute("aria-label", says);
        output.Attributes.SetAttribute(
            "viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {width} {height}"));
        // Also where the page is dark: readers look for dark modules on light ground.
        output.Content.AppendHtml("<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/><path fill=\"#000\" d=\"");
        output.Content.AppendHtml(path);
        output.Content.AppendHtml("\"/>");
    }
}
