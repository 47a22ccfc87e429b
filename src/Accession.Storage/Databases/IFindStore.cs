namespace Accession.Storage.Databases;

/// <summary>What is asked of the index, in the words of one database.</summary>
public readonly record struct FindQuestion(string Text);

/// <summary>Finding sheets by words, by the means of each database.</summary>
public interface IFindStore
{
    /// <summary>Asks for the sheets that bear all the words; the last may be the beginning of a longer one.</summary>
    /// <param name="words">At least one word, of letters and digits only.</param>
    FindQuestion Begun(IReadOnlyList<string> words);

    /// <summary>Asks for the sheets that bear all the words whole.</summary>
    /// <param name="words">At least one word, of letters and digits only.</param>
    FindQuestion Whole(IReadOnlyList<string> words);

    /// <summary>The keys of the sheets that answer, as a statement to compose with.</summary>
    IQueryable<long> Bearing(AccessionDb db, FindQuestion question);

    /// <summary>How many there are, as far as anybody counts.</summary>
    Task<int> CountAsync(AccessionDb db, FindQuestion question, int most, CancellationToken cancellation);

    /// <summary>The newest of them, without looking at the rest.</summary>
    /// <param name="before">Only those with a smaller key; null for the newest of all.</param>
    Task<List<long>> NewestAsync(
        AccessionDb db, FindQuestion question, long? before, int most, CancellationToken cancellation);
}
