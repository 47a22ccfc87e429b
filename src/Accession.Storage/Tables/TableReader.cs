using Accession.Core.Outcomes;
using Accession.Storage.Tables.Archives;

namespace Accession.Storage.Tables;

/// <summary>Opens the lists that people send: text with separators, a workbook, or a Darwin Core archive.</summary>
public static class TableReader
{
    private const int HeadSize = 1 << 16;

    /// <summary>
    /// Opens a list by what is in it, whatever its name ends in, and finds its headings. A file that is no table
    /// is refused with what it looks like and what to send instead.
    /// </summary>
    /// <param name="path">The file. It must not change while its rows are read.</param>
    /// <param name="limits">How much is read; null for the usual limits.</param>
    public static Outcome<Table> Open(string path, TableLimits? limits = null)
    {
        limits ??= new();
        var length = new FileInfo(path) is { Exists: true } info ? info.Length : -1;
        if (length <= 0)
        {
            return length < 0
                ? new Refusal(RefusalKind.NotFound, "There is no such file.")
                : Invalid("The file is empty: it has no bytes in it.");
        }

        if (length > limits.MaximumBytes)
        {
            return Invalid(
                $"The file has {length / 1e6:N0} MB; lists of up to {limits.MaximumBytes / 1e6:N0} MB are read. "
                + "Divide it and send the parts.");
        }

        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        var head = new byte[Math.Min(HeadSize, length)];
        file.ReadExactly(head);
        var (kind, what) = FileKinds.Of(file, head);
        if (kind == FileKind.Other)
        {
            return Invalid($"This is not a table: it looks like {what}. Save the list as CSV or XLSX and send that.");
        }

        return kind switch
        {
            FileKind.Archive => DarwinCoreArchive.Open(path, limits),
            FileKind.Workbook => WithHeadings(Workbook.Open(path, limits), limits),
            _ => OpenText(
                () => new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read), limits, prefix: ""),
        };
    }

    /// <summary>Opens a list that is known to be text with separators, wherever it lies.</summary>
    /// <param name="open">Opens it at its beginning.</param>
    /// <param name="limits">How much is read; null for the usual limits.</param>
    public static Outcome<Table> Open(Func<Stream> open, TableLimits? limits = null) =>
        OpenText(open, limits ?? new(), prefix: "");

    /// <summary>What stands between the cells of a text.</summary>
    /// <param name="text">The text, or its beginning.</param>
    public static char SeparatorOf(string text) => Separators.Detect(text);

    /// <summary>Opens a list that is text with separators.</summary>
    /// <param name="open">Opens it at its beginning.</param>
    /// <param name="limits">How much is read.</param>
    /// <param name="prefix">What stands before the name of its kind.</param>
    internal static Outcome<Table> OpenText(Func<Stream> open, TableLimits limits, string prefix) =>
        WithHeadings(TextSource(open, limits, prefix), limits);

    private static Outcome<Table> WithHeadings(Outcome<TableSource> opened, TableLimits limits)
    {
        if (opened.IsRefused)
        {
            return opened.Refusals.ToList();
        }

        var headings = Headings.Find(opened.Value.Upper, limits);
        return headings.IsRefused ? headings.Refusals.ToList() : new Table(opened.Value, headings.Value, limits);
    }

    private static Outcome<TableSource> TextSource(Func<Stream> open, TableLimits limits, string prefix)
    {
        var encoding = TextEncoding.Of(open);
        var text = encoding.Encoding.GetString(HeadOf(open)).TrimStart('\uFEFF');
        var hinted = Separators.Hinted(text);
        var separator = hinted ?? Separators.Detect(text);
        if (!char.IsAscii(separator) || char.IsLetterOrDigit(separator) || separator is '"')
        {
            return Invalid($"The first line names \"{separator}\" as the separator, which cannot be one.");
        }

        var sent = new TextFile(open, encoding, separator, limits);
        if (TextPlan.Of(sent) is not { } plan)
        {
            return Invalid("This is not a table: it has many lines longer than a row may be.");
        }

        var name = separator == '\t' ? "TSV" : "CSV";
        var marks = plan.Quoting switch
        {
            Quoting.Ordinary => ", quotation marks as letters",
            Quoting.EachLine => ", quotation marks within one line",
            _ => "",
        };
        IEnumerable<RawRow> Rows() => sent.Rows(plan.Quoting, plan.Aside).Skip(hinted is null ? 0 : 1);
        return new TableSource(
            $"{prefix}{name}, {Separators.NameOf(separator)}{marks}",
            encoding.Name,
            Headings.UpperOf(Rows()),
            Rows,
            [],
            ReportsShortRows: plan.Short * 2 < plan.Rows);
    }

    private static byte[] HeadOf(Func<Stream> open)
    {
        using var file = open();
        var head = new byte[HeadSize];
        return head[..file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
    }

    private static Refusal Invalid(string reason) => new(RefusalKind.Invalid, reason);
}
