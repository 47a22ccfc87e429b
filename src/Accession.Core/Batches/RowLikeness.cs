using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Accession.Core.Texts;

namespace Accession.Core.Batches;

/// <summary>
/// What a row says apart from one of its facts. Two rows that agree in all but one of collector, number, date, plant
/// and place are probably one row with a slip corrected, even where the slip was in the number by which it is known.
/// </summary>
public static class RowLikeness
{
    private const int FewestFacts = 3;

    /// <summary>
    /// A signature of 64 bits for each fact left out, in the order number, collector, date, plant, place. A fact is
    /// only left out where at least three others are written: less would make any two rows of a day alike.
    /// </summary>
    /// <param name="row">What was read from the row.</param>
    public static IReadOnlyList<long> AllButOne(RowReading row)
    {
        ArgumentNullException.ThrowIfNull(row);
        var (notes, place) = (row.Notes, row.Place);
        string[] facts =
        [
            Written(notes.NumberKey, notes.RecordNumber),
            Written(notes.CollectorKey, notes.CollectorsVerbatim),
            Written(notes.EventDate, notes.DateVerbatim),
            Folding.Fold(notes.NameVerbatim),
            Written(Folding.Fold(place.Locality), place.CoordinatesVerbatim),
        ];
        List<long> signatures = [];
        for (var leftOut = 0; leftOut < facts.Length; leftOut++)
        {
            var others = facts.Where((fact, k) => k != leftOut && fact.Length > 0).Count();
            if (others >= FewestFacts)
            {
                signatures.Add(Signature(facts, leftOut));
            }
        }

        return signatures;
    }

    private static string Written(string read, string verbatim) => read.Length > 0 ? read : Folding.Fold(verbatim);

    private static long Signature(string[] facts, int leftOut)
    {
        var said = string.Join('\u001F', facts.Select((fact, k) => k == leftOut ? "\u001E" : fact));
        return BinaryPrimitives.ReadInt64LittleEndian(SHA256.HashData(Encoding.UTF8.GetBytes(said)));
    }
}
