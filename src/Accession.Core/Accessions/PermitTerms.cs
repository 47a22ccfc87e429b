using Accession.Core.Outcomes;

namespace Accession.Core.Accessions;

/// <summary>What a permit says, as far as rows of a list can be compared with it.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Number">Its number, at most 100 characters; empty when it has none.</param>
/// <param name="Issuer">Who issued it, at most 200 characters.</param>
/// <param name="From">The first day on which it holds; null when it names none.</param>
/// <param name="Until">The last day on which it holds; null when it names none.</param>
/// <param name="Country">The country; empty for any.</param>
/// <param name="StateProvince">State or province; empty for any.</param>
/// <param name="Counties">The counties, at most 100; none for any.</param>
/// <param name="Taxa">Families, genera or species, at most 500; none for any.</param>
/// <param name="Conditions">What else it says, at most 4,000 characters.</param>
/// <param name="PaperId">The paper it stands on; null when that is not here.</param>
public sealed record PermitTerms(
    PermitKind? Kind,
    string Number,
    string Issuer,
    DateOnly? From,
    DateOnly? Until,
    string Country,
    string StateProvince,
    IReadOnlyList<string> Counties,
    IReadOnlyList<string> Taxa,
    string Conditions,
    long? PaperId)
{
    /// <summary>The longest number, in characters.</summary>
    public const int LongestNumber = 100;

    /// <summary>The longest name of an issuer, a place or a plant, in characters.</summary>
    public const int LongestName = 200;

    private const int LongestConditions = 4000;
    private const int MostCounties = 100;
    private const int MostTaxa = 500;

    /// <summary>Reads a list that somebody typed, an entry on each line or between semicolons.</summary>
    /// <param name="text">What was typed; null or empty for none.</param>
    public static IReadOnlyList<string> Entries(string? text) =>
    [
        .. (text ?? "").Split(
            ['\n', '\r', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Distinct(),
    ];

    /// <summary>Why it cannot stand as stated; null when it can.</summary>
    public Refusal? WhyNot() => this switch
    {
        { Kind: null } => Wrong("Choose what kind of permit it is."),
        { Kind: { } kind } when !Enum.IsDefined(kind) => Wrong("Choose what kind of permit it is."),
        { Number: "", Issuer: "" } => Wrong("Write the number of the permit, or who issued it."),
        { Number.Length: > LongestNumber } => Wrong("The number has more than 100 characters."),
        { From: { } from, Until: { } until } when until < from => Wrong(
            $"The permit would end on {Days.Words(until)}, before it begins on {Days.Words(from)}. "
            + "Look at the two dates again."),
        { Counties.Count: > MostCounties } => Wrong("A permit can name up to 100 counties here."),
        { Taxa.Count: > MostTaxa } => Wrong("A permit can name up to 500 plants here."),
        { Conditions.Length: > LongestConditions } => Wrong("The conditions have more than 4,000 characters."),
        _ when Names.FirstOrDefault(name => name.Length > LongestName) is { } name => Wrong(
            $"\"{name[..40]}…\" has more than 200 characters. Write each place and each plant on a line of its own."),
        _ => null,
    };

    private IEnumerable<string> Names => [Issuer, Country, StateProvince, .. Counties, .. Taxa];

    private static Refusal Wrong(string reason) => new(RefusalKind.Invalid, reason);
}
