using Accession.Core.Gatherings;

namespace Accession.Evaluation;

/// <summary>
/// A text of a collector's number with its parts. Prefix and suffix are compared without regard to case, the number
/// without leading zeros.
/// </summary>
internal sealed record LabelledNumber(string? Raw, string? Prefix, string? Number, string? Suffix, bool Sn) : ILabelled
{
    /// <inheritdoc/>
    public string Wanted() => Form(Prefix, Number, Suffix, Sn);

    /// <inheritdoc/>
    public string Answer()
    {
        var reading = CollectorNumber.Read(Raw);
        if (!reading.IsRead)
        {
            return Form("", "", "", false);
        }

        var numbers = reading.Value;
        return numbers.First is { } first
            ? Form(first.Prefix, Joined(numbers), first.Suffix, false)
            : Form(numbers.PrefixWithoutNumber, "", "", true);
    }

    private static string Joined(CollectorNumbers numbers) =>
        string.Join(numbers.IsRange ? "-" : ", ", numbers.Numbers.Select(n => n.Number));

    private static string Form(string? prefix, string? number, string? suffix, bool isWithout)
    {
        var parts = $"{prefix} · {number?.TrimStart('0')} · {suffix}".ToUpperInvariant();
        return isWithout ? $"{parts} · s.n." : parts;
    }
}
