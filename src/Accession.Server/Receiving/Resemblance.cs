namespace Accession.Server.Receiving;

/// <summary>What a row of a new list is known by: its content, and collector and number where it has both.</summary>
internal readonly record struct RowKeys(string Identity, string PairKey);

/// <summary>How much a new list is like an earlier batch of its source.</summary>
/// <param name="BatchId">The earlier batch.</param>
/// <param name="ToTheLetter">Rows of the list that stand there to the letter.</param>
/// <param name="Alike">Rows that stand there to the letter or under the same collector and number.</param>
/// <param name="Rows">Rows of the list.</param>
/// <param name="Standing">Rows that stand in the earlier batch now.</param>
internal sealed record Resemblance(long BatchId, int ToTheLetter, int Alike, int Rows, int Standing)
{
    private int Larger => Math.Max(Rows, Standing);

    /// <summary>
    /// Three quarters of the larger of the two are the same rows, half of it to the letter: few would be withdrawn and
    /// few added, and nobody would call it another list.
    /// </summary>
    public bool IsThatListAgain => Alike * 4L >= Larger * 3L && ToTheLetter * 2L >= Larger;

    /// <summary>Half of the smaller of the two are the same rows: somebody has to say.</summary>
    public bool MayBeThatList => Alike > 0 && Alike * 2L >= Math.Min(Rows, Standing);
}
