using AngleSharp.Dom;
using AngleSharp.Html.Dom;

namespace Accession.Server.Tests.Ground;

/// <summary>What a form would send: the "successful controls" of the HTML standard, section 4.10.22.4.</summary>
internal static class FormReading
{
    /// <summary>The button that Enter presses.</summary>
    public static IElement? FirstButton(IHtmlFormElement form) => form.Elements.FirstOrDefault(IsSubmitButton);

    public static IReadOnlyList<KeyValuePair<string, string>> Values(
        IHtmlFormElement form, IElement? button, (string Name, string Value)[] fields, string[] files)
    {
        var controls = form.Elements.OfType<IElement>().ToList();
        foreach (var name in fields.Select(field => field.Name).Concat(files))
        {
            Assert.True(
                controls.Any(control => control.GetAttribute("name") == name),
                $"The form has no field \"{name}\", only {string.Join(", ", controls.Select(c => c.GetAttribute("name")))}.");
        }

        var named = fields.Select(field => field.Name).ToHashSet();
        return
        [
            .. controls
                .Where(control => !named.Contains(control.GetAttribute("name") ?? ""))
                .SelectMany(control => Chosen(control, button)),
            .. fields.Select(field => KeyValuePair.Create(field.Name, Offered(controls, field.Name, field.Value))),
        ];
    }

    private static IEnumerable<KeyValuePair<string, string>> Chosen(IElement control, IElement? button)
    {
        if (control.GetAttribute("name") is not { Length: > 0 } name || control.HasAttribute("disabled"))
        {
            return [];
        }

        return control switch
        {
            _ when IsSubmitButton(control) => control == button ? [new(name, control.GetAttribute("value") ?? "")] : [],
            IHtmlInputElement { Type: "checkbox" or "radio" } choice =>
                choice.IsChecked ? [new(name, choice.GetAttribute("value") ?? "on")] : [],
            IHtmlInputElement { Type: "file" or "button" or "reset" } => [],
            IHtmlInputElement input => [new(name, input.Value)],
            IHtmlTextAreaElement area => [new(name, area.Value)],
            IHtmlSelectElement select => select.Options.Where(option => option.IsSelected)
                .Select(option => KeyValuePair.Create(name, option.Value)),
            _ => [],
        };
    }

    // What a list or a row of boxes does not offer, nobody at a browser can choose.
    private static string Offered(List<IElement> controls, string name, string value)
    {
        List<string> offers = [];
        foreach (var control in controls.Where(control => control.GetAttribute("name") == name))
        {
            switch (control)
            {
                case IHtmlSelectElement select:
                    offers.AddRange(select.Options.Select(option => option.Value));
                    break;
                case IHtmlInputElement { Type: "checkbox" or "radio" } choice:
                    offers.Add(choice.GetAttribute("value") ?? "on");
                    break;
                default:
                    return value;
            }
        }

        Assert.Contains(value, offers);
        return value;
    }

    private static bool IsSubmitButton(IElement control) => control
        is IHtmlButtonElement { Type: "submit" } or IHtmlInputElement { Type: "submit" or "image" };
}
