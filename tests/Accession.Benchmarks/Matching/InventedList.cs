using System.Text;

namespace Accession.Benchmarks.Matching;

/// <summary>
/// A list of vouchers, of which each third row is of a gathering in the register, written by another hand. The others
/// are later numbers of collectors who are in the register, and collectors who are not, in equal parts.
/// </summary>
internal sealed class InventedList(InventedLabels labels, int specimens, int rows)
{
    private const int EachPlanted = 3;

    /// <summary>The gathering that a row is of; null for one of its own.</summary>
    /// <param name="row">The row, from 0.</param>
    public long? PlantedAt(int row) => row % EachPlanted == 0
        ? (long)((row / EachPlanted * 1_000_003L) % specimens)
        : null;

    /// <summary>How many rows are of gatherings in the register.</summary>
    public int Planted => (rows + EachPlanted - 1) / EachPlanted;

    /// <summary>The line on which a row stands in the file: the headings stand on the first.</summary>
    public static int LineOf(int row) => row + 2;

    /// <summary>The cells of a row.</summary>
    public string[] Cells(int row)
    {
        if (PlantedAt(row) is { } gathering)
        {
            return labels.Of(gathering).AsVariant((salt, choices) => labels.Pick(row, 90_000 + salt, choices));
        }

        var collectors = Math.Max(1, specimens / InventedLabels.EachCollector);
        var n = row / EachPlanted;
        return (row % EachPlanted == 1
            ? labels.Of(n % collectors, InventedLabels.EachCollector + (n / collectors))
            : labels.Of(((long)collectors * InventedLabels.EachCollector) + n)).AsHeld();
    }

    public async Task WriteAsync(string path, CancellationToken cancellation)
    {
        await using var file = new StreamWriter(path, append: false, Encoding.UTF8);
        await file.WriteLineAsync(string.Join(',', InventedLabel.Headings));
        for (var row = 0; row < rows; row++)
        {
            cancellation.ThrowIfCancellationRequested();
            await file.WriteLineAsync(string.Join(',', Cells(row).Select(cell => $"\"{cell}\"")));
        }
    }
}
