namespace Accession.Core.Batches;

/// <summary>
/// One row of a batch, to the letter. It is known by its content within its source and by its place among equal rows,
/// never by its line. Rows are permanent: a specimen points to the row it came from.
/// </summary>
public sealed class BatchRow
{
    private BatchRow()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The batch it belongs to.</summary>
    public long BatchId { get; private set; }

    /// <summary>The list it first stood in; its cells follow that list's headings.</summary>
    public long FirstListId { get; private set; }

    /// <summary>The latest list it stood in.</summary>
    public long LastListId { get; private set; }

    /// <summary>Its line in the latest list, from 1 for the file's first line.</summary>
    public int Line { get; private set; }

    /// <summary>What identifies its content: see <see cref="RowIdentity"/>.</summary>
    public string Identity { get; private set; } = "";

    /// <summary>Its place among equal rows of the list, from 1.</summary>
    public int Occurrence { get; private set; }

    /// <summary>
    /// Collector and number folded into one text, by which a corrected row finds the row it corrects.
    /// </summary>
    public string PairKey { get; private set; } = "";

    /// <summary>The cells to the letter, in the order of its first list's headings, as a JSON list.</summary>
    public string Cells { get; private set; } = "[]";

    /// <summary>How many sheets it stands for; at least 1.</summary>
    public int Sheets { get; private set; }

    /// <summary>How many of its problems keep it from being taken into the register.</summary>
    public int OpenProblems { get; private set; }

    /// <summary>The act by which a curator took it as written in spite of its problems; null when nobody did.</summary>
    public long? TakenAsWrittenActId { get; private set; }

    /// <summary>The corrected row that stands in its place; null while it stands itself.</summary>
    public long? SupersededById { get; private set; }

    /// <summary>The list from which it was missing; null while it stands.</summary>
    public long? WithdrawnInListId { get; private set; }

    /// <summary>The gathering it became; null until it is taken into the register.</summary>
    public long? GatheringId { get; private set; }
}
