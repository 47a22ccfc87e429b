using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Accession.Server.Shared;

/// <summary>
/// Shows a plant name: <c>&lt;plant-name of="@sheet.Name" /&gt;</c>. Nothing written becomes "not named".
/// </summary>
[HtmlTargetElement("plant-name", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class PlantNameTagHelper(HtmlEncoder encoder) : TagHelper
{
    /// <summary>The name as it was written, authors and all.</summary>
    public string? Of { get; set; }

    /// <summary>What is said of a sheet without a name; nothing where another word stands for that.</summary>
    public string Without { get; set; } = "not named";

    /// <inheritdoc />
    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var isNamed = !string.IsNullOrWhiteSpace(Of);
        output.TagName = "span";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", isNamed ? "plant-name" : "soft");
        if (!isNamed)
        {
            output.Content.SetContent(Without);
            return;
        }

        foreach (var (text, isItalic) in PlantNameSetting.Of(Of!))
        {
            var encoded = encoder.Encode(text);
            output.Content.AppendHtml(isItalic ? $"<i>{encoded}</i>" : encoded);
        }
    }
}
