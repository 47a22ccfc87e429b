namespace Accession.Server.Receiving;

/// <summary>
/// Fields of a form that are named after columns, such as <c>Typed[Collector]</c>. They are read here because the
/// framework takes every other field for one of them where none was sent.
/// </summary>
internal static class FormFields
{
    /// <summary>What was sent under a name, by what stands in its brackets.</summary>
    public static Dictionary<string, string> Of(IFormCollection form, string name) => form
        .Where(field => field.Key.StartsWith($"{name}[", StringComparison.Ordinal) && field.Key.EndsWith(']'))
        .ToDictionary(field => field.Key[(name.Length + 1)..^1], field => field.Value.ToString());
}
