using System.Text;
using System.Text.RegularExpressions;
using Accession.Core.Outcomes;
using Accession.Core.Standards.DarwinCore;

namespace Accession.Storage.Tables.Archives;

/// <summary>Reads a Darwin Core archive as a list, by the text guide of TDWG (http://rs.tdwg.org/dwc/text/).</summary>
internal static partial class DarwinCoreArchive
{
    private const int LargestDescriptor = 1 << 20;

    /// <summary>Opens an archive, or refuses it in a sentence for its sender.</summary>
    public static Outcome<Table> Open(string path, TableLimits limits)
    {
        try
        {
            var package = Package.Open(path, limits);
            return DescriptorIn(package) is { } descriptor
                ? Described(package, descriptor, limits)
                : WithoutDescriptor(package, limits);
        }
        catch (ArchiveRefusedException refused)
        {
            return new Refusal(RefusalKind.Invalid, refused.Message);
        }
        catch (Exception damage) when (damage is InvalidDataException or EndOfStreamException)
        {
            return new Refusal(
                RefusalKind.Invalid, "The zip is damaged or was not sent to its end. Ask for it once more.");
        }
    }

    /// <summary>The descriptor: at the top, or in the only folder that has one, as when a folder was packed.</summary>
    private static string? DescriptorIn(Package package)
    {
        var found = package.Names.Where(name => name.Count(c => c == '/') <= 1 && ArchiveDescriptor.FileName.Equals(
            name[(name.LastIndexOf('/') + 1)..], StringComparison.OrdinalIgnoreCase)).ToList();
        return found.Find(name => name == ArchiveDescriptor.FileName) ?? found.Find(name => !name.Contains('/'))
            ?? (found.Count > 1
                ? throw new ArchiveRefusedException(
                    $"The zip holds {found.Count} archives in folders of their own. Send each by itself.")
                : found.FirstOrDefault());
    }

    /// <summary>By the guide an archive of a single file needs no descriptor if its headings are the terms.</summary>
    private static Outcome<Table> WithoutDescriptor(Package package, TableLimits limits)
    {
        List<string> lists = [.. package.Names.Where(name => !BesideLists().IsMatch(name))];
        if (lists is not [var only])
        {
            return new Refusal(
                RefusalKind.Invalid,
                "This is a packed file (zip) without a meta.xml, so it is no Darwin Core archive, and it holds "
                + $"{(lists is [] ? "no list" : $"{lists.Count:N0} files that could be the list")}. "
                + "Unpack it and send the list as CSV or XLSX.");
        }

        package.Prove(only);
        return TableReader.OpenText(() => package.OpenFile(only), limits, $"{Package.Shown(only)} in a zip: ");
    }

    private static Outcome<Table> Described(Package package, string descriptor, TableLimits limits)
    {
        var folder = descriptor[..(descriptor.LastIndexOf('/') + 1)];
        var meta = MetaReader.Read(TextOf(package, descriptor));
        var core = new ArchiveSource(package, folder, meta.Core, limits);
        List<ArchiveSource> extensions =
            [.. meta.Extensions.Select(extension => new ArchiveSource(package, folder, extension, limits))];
        var own = VouchersOf(core, extensions);
        List<ArchiveSource> sources = [core, .. extensions];
        if (sources.Sum(source => source.Bytes) > limits.MaximumUnpackedBytes)
        {
            throw new ArchiveRefusedException(
                $"The archive unpacks to more than {limits.MaximumUnpackedBytes / 1e6:N0} MB, which is more than is "
                + "read. Divide it and send the parts.");
        }

        if (core.Table.Key is null && extensions.Count > 0)
        {
            throw new ArchiveRefusedException(
                "meta.xml does not say which column of the core is its id, so nothing in the other files can be told "
                + "to belong to a row.");
        }

        var layout = new ArchiveLayout();
        var columns = layout.Of(own, own == core ? "id" : "coreid");
        List<JoinedTable> others = [.. sources.Where(source => source != own).Select(source => new JoinedTable(
            source,
            layout.Unique($"{source.Table.TypeName} rows"),
            source == core ? layout.Added(core, columns) : []))];
        List<string> names = [.. columns.Select(column => column.Heading)];
        names.AddRange(others.SelectMany(other => other.Added.Select(column => column.Heading).Prepend(other.Heading)));
        if (names.Count > limits.MaximumColumns)
        {
            throw new ArchiveRefusedException(
                $"The archive has {names.Count:N0} columns; a list may have {limits.MaximumColumns:N0}.");
        }

        List<TableProblem> notes =
        [
            .. Told(package, folder, meta, own, sources, descriptor).Concat(layout.Notes)
                .Select(told => new TableProblem(1, null, null, "", told)),
            .. new ArchiveAccount(own, others, own == core).Draw(),
        ];
        var rows = new ArchiveRows(own, own == core, columns, others, limits);
        var source = new TableSource(
            $"Darwin Core archive, {own.Table.TypeName} in {Short(own.Table.Names)}", own.Encodings, [], rows.All,
            notes, ReportsShortRows: false);
        return new Table(source, new Headings(0, 0, names, []), limits);
    }

    /// <summary>
    /// The table whose rows are sheets: the core, unless that is of something else, such as a name or a day in the
    /// field, and occurrences stand beside it.
    /// </summary>
    private static ArchiveSource VouchersOf(ArchiveSource core, List<ArchiveSource> extensions) =>
        core.Table.IsOfOccurrences ? core : extensions.Find(extension => extension.Table.IsOfOccurrences) ?? core;

    private static IEnumerable<string> Told(
        Package package, string folder, MetaReader.Meta meta, ArchiveSource own, List<ArchiveSource> sources,
        string descriptor)
    {
        foreach (var note in sources.SelectMany(source => source.Notes))
        {
            yield return note;
        }

        foreach (var beyond in sources.Where(source => source.KeyIsBeyond))
        {
            yield return $"meta.xml says that column {beyond.Table.Key + 1} of {beyond.Table.Names} joins its rows to "
                + $"others; there are {beyond.Width}.";
        }

        if (!own.Table.IsOfOccurrences && own.Table.RowType.Length > 0 && own.Table.TypeName != "SimpleDarwinRecord")
        {
            yield return $"The rows of this archive are of the kind {own.Table.TypeName}, not Occurrence. They are "
                + "read as rows of a list all the same: see whether they are sheets.";
        }

        var isAddress = meta.Metadata is { } named && AddressOfDocument().IsMatch(named);
        var document = meta.Metadata is null || isAddress ? null : package.Find(folder, meta.Metadata);
        if (isAddress)
        {
            yield return $"The description of the data set lies at {meta.Metadata} and was not fetched.";
        }
        else if (meta.Metadata is not null && document is null)
        {
            yield return $"{meta.Metadata}, which should describe the data set, is not in the archive.";
        }

        var read = sources.SelectMany(source => source.Files).Append(descriptor).Append(document).ToHashSet();
        foreach (var name in package.Names.Where(name => !read.Contains(name)).Take(20))
        {
            yield return $"{Package.Shown(name)} is in the archive and meta.xml does not name it: it was not read.";
        }
    }

    private static string TextOf(Package package, string descriptor)
    {
        using var stream = package.OpenFile(descriptor);
        var bytes = new byte[LargestDescriptor + 1];
        var got = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        if (got > LargestDescriptor)
        {
            throw new ArchiveRefusedException("meta.xml has more than a megabyte. No honest one is that long.");
        }

        // What XML says of its own letters counts only where the bytes do not show it.
        var encoding = TextEncoding.Of(() => new MemoryStream(bytes, 0, got));
        var start = Encoding.Latin1.GetString(bytes, 0, Math.Min(got, 200));
        var (read, _) = encoding.IsCertain || DeclaredInXml().Match(start) is not { Success: true } declared
            ? (encoding, null)
            : DeclaredEncoding.Of(() => new MemoryStream(bytes, 0, got), declared.Groups["name"].Value);
        return read.Encoding.GetString(bytes, 0, got).TrimStart('\uFEFF');
    }

    private static string Short(string names) => names.Length <= 40 ? names : names[..40] + "…";

    /// <summary>What lies beside a list without being one: a description of the data set, notes, pictures.</summary>
    [GeneratedRegex(@"\.(xml|md|html?|pdf|jpe?g|png|json)$|(^|/)(readme|licen[cs]e|citation)[^/]*$",
        RegexOptions.IgnoreCase)]
    private static partial Regex BesideLists();

    [GeneratedRegex(@"^https?://", RegexOptions.IgnoreCase)]
    private static partial Regex AddressOfDocument();

    [GeneratedRegex("""^<\?xml[^>]*\bencoding\s*=\s*["'](?<name>[A-Za-z0-9._:-]+)["']""")]
    private static partial Regex DeclaredInXml();
}
