using System.Text;
using Accession.Storage.Tables;

namespace Accession.Tests.Tables;

/// <summary>A folder of its own for each test class, gone afterwards.</summary>
public abstract class TableTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("accession-tables-");

    /// <summary>A path for a file that the test writes.</summary>
    protected string PathOf(string name) => Path.Combine(_folder.FullName, name);

    /// <summary>Writes a text file and returns its path.</summary>
    protected string Text(string text, Encoding? encoding = null, string name = "list.csv")
    {
        File.WriteAllText(PathOf(name), text, encoding ?? new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        return PathOf(name);
    }

    /// <summary>Writes a file of bytes and returns its path.</summary>
    protected string Bytes(byte[] bytes, string name = "list.csv")
    {
        File.WriteAllBytes(PathOf(name), bytes);
        return PathOf(name);
    }

    /// <summary>Opens a list that must open.</summary>
    protected static Table Opened(string path, TableLimits? limits = null)
    {
        var outcome = TableReader.Open(path, limits);
        Assert.False(outcome.IsRefused, string.Join(" ", outcome.Refusals.Select(r => r.Reason)));
        return outcome.Value;
    }

    /// <summary>The reasons why a list was refused.</summary>
    protected static string Refused(string path, TableLimits? limits = null)
    {
        var outcome = TableReader.Open(path, limits);
        Assert.True(outcome.IsRefused, "The file was opened.");
        return string.Join(" ", outcome.Refusals.Select(r => r.Reason));
    }

    /// <summary>The rows with their line numbers, as one text each, to compare at a glance.</summary>
    protected static string[] Lines(Table table) => [.. table.Rows().Select(row =>
        $"{row.Line}: {(row.IsRefused ? "refused" : string.Join(" | ", row.Cells))}")];

    public void Dispose()
    {
        _folder.Delete(recursive: true);
        GC.SuppressFinalize(this);
    }
}
