namespace Accession.Storage.Tables;

/// <summary>How much is read of a sender's file. Nobody's list is this large by honest work.</summary>
/// <param name="MaximumBytes">The largest file, in bytes. The default is 500 MiB.</param>
/// <param name="MaximumUnpackedBytes">
/// The largest workbook, or file of an archive, after unpacking, in bytes. The default is 2 GiB.
/// </param>
/// <param name="MaximumColumns">The most headings. The default is 500.</param>
/// <param name="MaximumCellLength">The longest cell, in characters. The default is a spreadsheet's own limit.</param>
/// <param name="MaximumRowBytes">The longest row of a text file, in bytes of UTF-8. The default is 2 MiB.</param>
/// <param name="MaximumRatio">
/// How many times its packed size a file of an archive may unpack to, once it has 16 MiB. The default is 200.
/// </param>
public sealed record TableLimits(
    long MaximumBytes = 500L << 20,
    long MaximumUnpackedBytes = 2L << 30,
    int MaximumColumns = 500,
    int MaximumCellLength = 32_767,
    int MaximumRowBytes = 2 << 20,
    int MaximumRatio = 200);
