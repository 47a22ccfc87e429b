namespace Accession.Storage.Finding;

/// <summary>
/// A word of a plant name that some sheet of the register bears, by which a slip is mended. A word may stand twice:
/// two who bring it at once do not wait for each other.
/// </summary>
public sealed class NameWord
{
    private NameWord()
    {
    }

    public NameWord(string word) => Word = word;

    public long Id { get; private set; }

    /// <summary>The word, folded.</summary>
    public string Word { get; private set; } = "";
}
