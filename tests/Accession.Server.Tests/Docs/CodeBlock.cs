namespace Accession.Server.Tests.Docs;

/// <summary>A fenced block of a document.</summary>
public sealed record CodeBlock(string File, int Line, string Language, string Text)
{
    /// <summary>Every fenced block of the documents for people, in the order of the files.</summary>
    public static IReadOnlyList<CodeBlock> All()
    {
        var root = Root();
        string[] files =
        [
            Path.Combine(root, "README.md"), Path.Combine(root, "DEVELOPERS.md"), Path.Combine(root, "deploy", "README.md"),
            .. Directory.EnumerateFiles(Path.Combine(root, "docs"), "*.md", SearchOption.AllDirectories).Order(),
        ];
        return [.. files.SelectMany(file => Of(Path.GetRelativePath(root, file).Replace('\\', '/'), System.IO.File.ReadAllLines(file)))];
    }

    /// <summary>The root of the source tree.</summary>
    public static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!System.IO.File.Exists(Path.Combine(folder, "Accession.sln")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("The solution was not found.");
        }

        return folder;
    }

    /// <summary>The lines of a shell block that are commands.</summary>
    public IEnumerable<string> Commands() => Text.Replace("\\\n", " ", StringComparison.Ordinal).Split('\n')
        .Select(line => line.Trim())
        .Where(line => line.Length > 0 && line[0] != '#');

    private static IEnumerable<CodeBlock> Of(string file, string[] lines)
    {
        for (var at = 0; at < lines.Length; at++)
        {
            if (!lines[at].StartsWith("```", StringComparison.Ordinal))
            {
                continue;
            }

            var end = Array.IndexOf(lines, "```", at + 1);
            Assert.True(end > at, $"{file}, line {at + 1}: this block has no end.");
            yield return new(file, at + 1, lines[at][3..].Trim(), string.Join('\n', lines[(at + 1)..end]));
            at = end;
        }
    }
}
