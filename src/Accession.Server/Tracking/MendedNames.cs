using Accession.Core.Specimens;
using Accession.Core.Texts;
using Accession.Storage;
using Accession.Storage.Finding;

namespace Accession.Server.Tracking;

/// <summary>
/// What somebody may have meant who typed a plant name with a slip: each word that no name has is taken for one that is
/// near it. Words of other things are left as they are.
/// </summary>
public sealed class MendedNames(AccessionDb db)
{
    private const int ForEachWord = 3;
    private const int Most = 6;

    /// <summary>The mended texts, the nearest first; nothing where no word can be mended.</summary>
    public async Task<IReadOnlyList<string>> OfAsync(string text, CancellationToken cancellation)
    {
        var words = FindText.WordsAsked(text);
        if (!words.Any(word => NearWords.Forgiven(word) > 0))
        {
            return [];
        }

        var all = (await NameWords.AllAsync(db, cancellation)).ToHashSet();
        List<IReadOnlyList<string>> choices = [];
        for (var i = 0; i < words.Count; i++)
        {
            var near = all.Contains(words[i])
                ? []
                : NearWords.Of(words[i], all, isBeginning: i == words.Count - 1, ForEachWord);
            choices.Add(near.Count == 0 ? [words[i]] : near);
        }

        // The first words of all choices first: the nearest of each.
        IEnumerable<(string Text, int Rank)> texts = [("", 0)];
        foreach (var choice in choices)
        {
            texts = [.. texts.SelectMany(
                one => choice.Select((word, rank) => ($"{one.Text} {word}".TrimStart(), one.Rank + rank)))
                .OrderBy(one => one.Item2).Take(Most)];
        }

        return [.. texts.Select(one => one.Text).Where(one => one != string.Join(' ', words))];
    }
}
