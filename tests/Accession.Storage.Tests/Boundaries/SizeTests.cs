namespace Accession.Storage.Tests.Boundaries;

/// <summary>A file is one room and a line is read in one breath.</summary>
public sealed class SizeTests
{
    private const int MostLines = 400;
    private const int MostColumns = 120;

    [Fact]
    public void No_file_is_too_long_and_no_line_too_wide() =>
        Assert.Equal([], SourceFile.All(".cs").SelectMany(Broken));

    [Fact]
    public void What_is_too_long_or_too_wide_is_noticed()
    {
        var longest = new string('\n', MostLines - 1);
        Assert.Empty(Broken(new("a.cs", longest + "\n")));
        Assert.Equal(["a.cs has 401 lines"], Broken(new("a.cs", longest + "\nx")));
        Assert.Empty(Broken(new("a.cs", new string('x', MostColumns))));
        Assert.Equal(["a.cs:2 has 121 columns"], Broken(new("a.cs", "\n" + new string('x', MostColumns + 1))));
    }

    private static IEnumerable<string> Broken(SourceFile file)
    {
        var lines = file.Text.TrimEnd('\r').Split('\n');
        var count = lines is [.., ""] ? lines.Length - 1 : lines.Length;
        if (count > MostLines)
        {
            yield return $"{file.Path} has {count} lines";
        }

        foreach (var (line, index) in lines.Select((line, index) => (line.TrimEnd('\r'), index)))
        {
            if (line.EnumerateRunes().Count() > MostColumns)
            {
                yield return $"{file.Path}:{index + 1} has {line.EnumerateRunes().Count()} columns";
            }
        }
    }
}
