using Accession.Core.Outcomes;

namespace Accession.Core.Batches;

/// <summary>One sending of a batch's list: the file as it came, and what reading it showed.</summary>
public sealed class ReceivedList
{
    private const int LongestFormat = 100;

    private ReceivedList()
    {
    }

    /// <summary>The key in the database; lists of one batch rise with time.</summary>
    public long Id { get; private set; }

    /// <summary>The batch it belongs to.</summary>
    public long BatchId { get; private set; }

    /// <summary>The batch it was received under, kept when it moved to an earlier one.</summary>
    public Batch Batch { get; private set; } = null!;

    /// <summary>The act that received it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that received it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The file's name as the sender gave it.</summary>
    public string FileName { get; private set; } = "";

    /// <summary>
    /// Where the file is kept, below the folder of lists in the data folder; empty where there is none.
    /// </summary>
    public string KeptAs { get; private set; } = "";

    /// <summary>
    /// Whether it has no file because it is typed here, label by label: it grows until its batch is closed.
    /// </summary>
    public bool IsTyped => KeptAs.Length == 0;

    /// <summary>SHA-256 of the file, in hexadecimal: the very same file sent again is known by it.</summary>
    public string Sha256 { get; private set; } = "";

    /// <summary>Size of the file in bytes.</summary>
    public long Bytes { get; private set; }

    /// <summary>What the file turned out to be, such as "CSV, semicolon, UTF-8"; empty until it was read.</summary>
    public string Format { get; private set; } = "";

    /// <summary>The headings in the file's own order, as a JSON list.</summary>
    public string Headings { get; private set; } = "[]";

    /// <summary>What the dates of the list prove about day and month, as JSON.</summary>
    public string DateEvidence { get; private set; } = "{}";

    /// <summary>Whether the whole file was read.</summary>
    public bool IsRead { get; private set; }

    /// <summary>Why the file could not be read at all; null when it could.</summary>
    public string? RefusedBecause { get; private set; }

    /// <summary>What the rows of this list were, against the lists that came before it.</summary>
    public ListCounts Counts { get; private set; } = ListCounts.None;

    /// <summary>A file kept in the data folder.</summary>
    /// <param name="FileName">Its name as the sender gave it.</param>
    /// <param name="KeptAs">Its path below the folder of lists.</param>
    /// <param name="Sha256">SHA-256 in hexadecimal.</param>
    /// <param name="Bytes">Its size in bytes.</param>
    public sealed record KeptFile(string FileName, string KeptAs, string Sha256, long Bytes);

    internal static ReceivedList Of(KeptFile file, Act act) => new()
    {
        Act = act,
        FileName = file.FileName,
        KeptAs = file.KeptAs,
        Sha256 = file.Sha256,
        Bytes = file.Bytes,
    };

    internal static ReceivedList Typed(Act act, string headings) => new()
    {
        Act = act,
        FileName = "typed here",
        Format = "typed here",
        Headings = headings,
        IsRead = true,
    };

    internal void MoveTo(Batch batch) => Batch = batch;

    /// <summary>Notes what kind of table the file is.</summary>
    /// <param name="format">Such as "CSV, semicolon, UTF-8"; cut at 100 characters.</param>
    /// <param name="headings">The headings as a JSON list.</param>
    public void Opened(string format, string headings)
    {
        Format = format.Length <= LongestFormat ? format : format[..(LongestFormat - 1)] + "…";
        Headings = headings;
    }

    /// <summary>Notes that the file cannot be read at all, and why.</summary>
    /// <param name="reason">A sentence for a curator.</param>
    public void Refuse(string reason)
    {
        RefusedBecause = reason;
        IsRead = true;
    }

    /// <summary>Notes that the file is to be read once more, as a list of the batch that it moved to.</summary>
    public void ReadOnceMore()
    {
        Counts = ListCounts.None;
        IsRead = false;
    }

    /// <summary>Notes what the dates prove now that other columns are dates.</summary>
    /// <param name="dateEvidence">What its dates prove about day and month, as JSON.</param>
    public void Reckon(string dateEvidence) => DateEvidence = dateEvidence;

    /// <summary>Notes that a list that is typed here has other rows now.</summary>
    /// <param name="counts">What its rows are.</param>
    /// <param name="dateEvidence">What its dates prove about day and month, as JSON.</param>
    /// <exception cref="InvalidOperationException">It came as a file, which says itself what it holds.</exception>
    public void Grow(ListCounts counts, string dateEvidence)
    {
        if (!IsTyped)
        {
            throw new InvalidOperationException("Only a list that is typed here grows.");
        }

        (Counts, DateEvidence) = (counts, dateEvidence);
    }

    /// <summary>Notes that the whole file was read.</summary>
    /// <param name="counts">What its rows were.</param>
    /// <param name="dateEvidence">What its dates prove about day and month, as JSON.</param>
    public void Finish(ListCounts counts, string dateEvidence)
    {
        Counts = counts;
        DateEvidence = dateEvidence;
        IsRead = true;
    }
}

/// <summary>What the rows of a list were, against the lists that came before it.</summary>
/// <param name="Rows">Rows read.</param>
/// <param name="Added">Rows not seen before.</param>
/// <param name="Changed">Rows that stand in for an earlier row of the same collector and number.</param>
/// <param name="Unchanged">Rows that were there already, on whatever line.</param>
/// <param name="Withdrawn">Earlier rows that no longer stand in the list.</param>
/// <param name="LinesNotRead">Lines that could not become rows; each is in the list of problems.</param>
public sealed record ListCounts(int Rows, int Added, int Changed, int Unchanged, int Withdrawn, int LinesNotRead)
{
    /// <summary>Nothing was read yet.</summary>
    public static ListCounts None { get; } = new(0, 0, 0, 0, 0, 0);
}
