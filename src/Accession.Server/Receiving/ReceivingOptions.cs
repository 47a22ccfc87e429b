using System.ComponentModel.DataAnnotations;
using Accession.Storage.Tables;

namespace Accession.Server.Receiving;

/// <summary>Settings of receiving, read from the section <c>Receiving</c>.</summary>
public sealed class ReceivingOptions
{
    /// <summary>The largest list that is taken, in megabytes of 1,048,576 bytes. The default is 200.</summary>
    [Range(1, 2000)]
    public int MaximumFileMegabytes { get; set; } = 200;

    /// <summary>The largest paper that is kept, in megabytes of 1,048,576 bytes. The default is 25.</summary>
    [Range(1, 500)]
    public int MaximumPaperMegabytes { get; set; } = 25;

    internal long MaximumPaperBytes => MaximumPaperMegabytes * 1024L * 1024;

    internal long MaximumFileBytes => MaximumFileMegabytes * 1024L * 1024;

    internal TableLimits Limits => new(MaximumBytes: MaximumFileBytes);
}
