using System.Text.RegularExpressions;

namespace Accession.Storage.Tests.Boundaries;

/// <summary>A slice knows Core, Storage, Shared, Hosting, Background and Mail, never another slice.</summary>
public sealed partial class SliceBoundaryTests
{
    private const string Server = "src/Accession.Server/";

    // What every slice may know. The server is put together in Hosting, so Hosting knows the slices, not they each other.
    private static readonly string[] Common = ["Hosting", "Background", "Shared", "Mail", "frontend"];

    // The demo plays everybody: it calls the operations of every slice in turn, and is called by none of them.
    private const string Demo = Server + "Administering/Demo";

    [Fact]
    public void No_slice_knows_another()
    {
        var files = SourceFile.All(".cs", ".cshtml");
        Assert.Contains(files, file => file.Path.StartsWith(Server + "Receiving/", StringComparison.Ordinal));
        Assert.Equal([], Broken(files));
    }

    [Fact]
    public void A_slice_that_knows_another_is_noticed()
    {
        var receiving = new SourceFile(Server + "Receiving/A.cs", "using Accession.Server.Numbering;\n");
        var numbering = new SourceFile(
            Server + "Numbering/B.cs", "using Accession.Server.Hosting;\nusing Accession.Server.Numbering;\n");
        var page = new SourceFile(Server + "Tracking/C.cshtml", "@model Accession.Server.Receiving.AModel\n");
        Assert.Equal(
            [
                "src/Accession.Server/Receiving/A.cs knows Numbering",
                "src/Accession.Server/Tracking/C.cshtml knows Receiving",
            ],
            Broken([receiving, numbering, page]));
    }

    private static IEnumerable<string> Broken(IReadOnlyList<SourceFile> files)
    {
        var slices = files.Select(file => Folder(file.Path)).OfType<string>().Except(Common).ToHashSet();
        return files
            .Where(file => Folder(file.Path) is { } own && slices.Contains(own))
            .Where(file => !file.Path.StartsWith(Demo, StringComparison.Ordinal))
            .SelectMany(file => OtherNamespace().Matches(file.Text)
                .Select(match => match.Groups[1].Value)
                .Where(named => slices.Contains(named) && named != Folder(file.Path))
                .Distinct()
                .Select(named => $"{file.Path} knows {named}"));
    }

    private static string? Folder(string path) =>
        path.StartsWith(Server, StringComparison.Ordinal) && path[Server.Length..].Split('/') is [var folder, _, ..]
            ? folder
            : null;

    [GeneratedRegex(@"Accession\.Server\.(\w+)")]
    private static partial Regex OtherNamespace();
}
