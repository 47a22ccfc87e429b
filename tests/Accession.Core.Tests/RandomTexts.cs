namespace Accession.Core.Tests;

/// <summary>Texts that nobody would write, the same each time.</summary>
internal static class RandomTexts
{
    private const string Signs =
        "aAbJRénØß王김٣８½№°–-—.,;:&/|+()[]{}'\"?*#_ 0123456789\t\n\u0301\uD83C\uDF3F\uD800\uFFFFeE ";

    private static readonly string[] Words =
    [
        " et al.", " & ", "van der ", "Jr.", " III", "s.n.", "No. ", "12/06/2024", "1.23E+05", " e ", "Filho", "coll. ",
        "12,345", " to ",
    ];

    /// <summary>Random texts of up to forty pieces.</summary>
    public static IEnumerable<string> Of(int seed, int count)
    {
        var random = new Random(seed);
        for (var i = 0; i < count; i++)
        {
            var pieces = Enumerable.Range(0, random.Next(40)).Select(_ => random.Next(8) == 0
                ? Words[random.Next(Words.Length)]
                : Signs[random.Next(Signs.Length)].ToString());
            yield return string.Concat(pieces);
        }
    }
}
