namespace Accession.Storage.Tables;

/// <summary>Counts what a reading gave, so that nothing can be missing without a number to show for it.</summary>
public sealed class TableTally
{
    /// <summary>Rows that were read, with or without remarks.</summary>
    public int Read { get; internal set; }

    /// <summary>Rows that were refused, each with its reason.</summary>
    public int Refused { get; internal set; }

    /// <summary>The last line on which something stood.</summary>
    public int LastLine { get; internal set; }
}
