namespace Accession.Core.Batches;

/// <summary>Something in a list that could not be read, or that a person should look at.</summary>
public sealed class RowProblem
{
    private RowProblem()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The batch.</summary>
    public long BatchId { get; private set; }

    /// <summary>The list in which it was found.</summary>
    public long ListId { get; private set; }

    /// <summary>The row; null when the line could not become a row.</summary>
    public long? RowId { get; private set; }

    /// <summary>The line in the file, from 1.</summary>
    public int Line { get; private set; }

    /// <summary>The heading of the column; empty when the whole line is meant.</summary>
    public string ColumnName { get; private set; } = "";

    /// <summary>
    /// Whether it was found in the file itself (a cell too many, a stray quote) and so stays whatever the columns are
    /// taken to mean.
    /// </summary>
    public bool FromFile { get; private set; }

    /// <summary>The text to the letter, cut at 500 characters.</summary>
    public string Text { get; private set; } = "";

    /// <summary>What is wrong and what to do, as a sentence.</summary>
    public string Reason { get; private set; } = "";

    /// <summary>Whether it keeps the row out of the register until somebody settles it.</summary>
    public bool Blocks { get; private set; }
}
