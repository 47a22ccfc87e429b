namespace Accession.Server.Receiving;

/// <summary>Reads rows on more than one processor: a slice at a time, and answers in the order of the rows.</summary>
internal static class ReadSideBySide
{
    // More would leave nothing to those who work meanwhile.
    private static readonly int AtOnce = Math.Min(4, Environment.ProcessorCount);

    /// <param name="rows">The rows of a slice.</param>
    /// <param name="read">Reads one; it must keep nothing of it.</param>
    public static List<TRead> SideBySide<TRow, TRead>(this IReadOnlyList<TRow> rows, Func<TRow, TRead> read)
    {
        var all = new TRead[rows.Count];
        var options = new ParallelOptions { MaxDegreeOfParallelism = AtOnce };
        Parallel.For(0, rows.Count, options, i => all[i] = read(rows[i]));
        return [.. all];
    }
}
