using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;

namespace Accession.Server.Tests.Ground;

/// <summary>
/// Collectors that nobody knows, one for each text. Tests of a class share a register, and the same row from another
/// source is found to be of the same gathering; by another collector in another year it is new.
/// </summary>
internal static class InventedNames
{
    private const string Consonants = "bdfgklmnprstvz";
    private const string Vowels = "aeiou";
    private const int Years = 120;

    private static readonly ConcurrentDictionary<string, int> Asked = new();
    private static int _last;

    public static string FamilyOf(string text)
    {
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(text));
        var name = new StringBuilder();
        for (var i = 0; i < 8; i += 2)
        {
            name.Append(Consonants[hash[i] % Consonants.Length]).Append(Vowels[hash[i + 1] % Vowels.Length]);
        }

        return char.ToUpperInvariant(name[0]) + name.Append('n').ToString(1, name.Length - 1);
    }

    /// <summary>
    /// The rows of Ada Quill or Orla Finch of 2024 as those of somebody else in another year. No two texts share a
    /// year, unless a hundred others were asked for between them: with everything else alike, another name alone would
    /// not make them two gatherings.
    /// </summary>
    public static string OfAnother(string rows, string text) => rows
        .Replace("Quill", FamilyOf(text), StringComparison.Ordinal)
        .Replace("Finch", FamilyOf(text), StringComparison.Ordinal)
        .Replace("2024-", $"{1900 + YearOf(text)}-", StringComparison.Ordinal);

    private static int YearOf(string text) => Asked.GetOrAdd(text, _ => Interlocked.Increment(ref _last)) % Years;
}
