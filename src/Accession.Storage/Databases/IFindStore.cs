namespace Accession.Storage.Databases;

/// <summary>Finding sheets by words, by the means of each database.</summary>
public interface IFindStore
{
    /// <summary>
    /// The keys of the sheets that bear all the words, as a statement to compose with; the last word may be the
    /// beginning of a longer one.
    /// </summary>
    /// <param name="words">At least one word, of letters and digits only.</param>
    IQueryable<long> Bearing(AccessionDb db, IReadOnlyList<string> words);

    /// <summary>How many there are, as far as anybody counts.</summary>
    Task<int> CountAsync(AccessionDb db, IReadOnlyList<string> words, int most, CancellationToken cancellation);

    /// <summary>The newest of them, without looking at the rest.</summary>
    /// <param name="before">Only those with a smaller key; null for the newest of all.</param>
    Task<List<long>> NewestAsync(
        AccessionDb db, IReadOnlyList<string> words, long? before, int most, CancellationToken cancellation);
}
