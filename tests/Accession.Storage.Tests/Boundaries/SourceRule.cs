using System.Text.RegularExpressions;
using Accession.Tests;

namespace Accession.Storage.Tests.Boundaries;

/// <summary>A file of the program's own source, by its path from the checkout, with slashes.</summary>
internal sealed record SourceFile(string Path, string Text)
{
    public IEnumerable<string> Lines => Text.Split('\n');

    /// <summary>Everything that is written by hand under src, of the kinds asked for.</summary>
    public static IReadOnlyList<SourceFile> All(params string[] endings)
    {
        var root = ReferenceData.CheckoutRoot();
        return
        [
            .. Directory.EnumerateFiles(System.IO.Path.Combine(root, "src"), "*", SearchOption.AllDirectories)
                .Where(file => endings.Any(ending => file.EndsWith(ending, StringComparison.Ordinal)))
                .Select(file => System.IO.Path.GetRelativePath(root, file).Replace('\\', '/'))
                .Where(path => !path.Split('/').Any(part => part is "node_modules" or "wwwroot" or "obj" or "bin"))
                .Order(StringComparer.Ordinal)
                .Select(path => new SourceFile(path, File.ReadAllText(System.IO.Path.Combine(root, path)))),
        ];
    }
}

/// <summary>A rule about what source may mention, and who is free of it.</summary>
/// <param name="Forbidden">What nobody may write.</param>
/// <param name="Allowed">Beginnings of the paths that may.</param>
internal sealed record MentionRule(Regex Forbidden, params string[] Allowed)
{
    public IEnumerable<string> Broken(IEnumerable<SourceFile> files) => files
        .Where(file => !Allowed.Any(path => file.Path.StartsWith(path, StringComparison.Ordinal)))
        .SelectMany(file => file.Lines.Select((line, index) => (file.Path, Line: index + 1, Text: line)))
        .Where(line => Forbidden.IsMatch(line.Text))
        .Select(line => $"{line.Path}:{line.Line}: {line.Text.Trim()}");
}
