using Accession.Core.Outcomes;

namespace Accession.Core.Standards.Eml;

/// <summary>What a herbarium says of a data set it publishes: the content of <c>eml.xml</c>.</summary>
public sealed record DatasetDescription
{
    /// <summary>Identifies the data set for ever, through all versions.</summary>
    public required Guid Identifier { get; init; }

    /// <summary>Counts the versions, from 1.</summary>
    public required int Version { get; init; }

    /// <summary>The title; never blank.</summary>
    public required string Title { get; init; }

    /// <summary>What the data set holds, for a stranger; blank lines separate paragraphs; never blank.</summary>
    public required string Abstract { get; init; }

    /// <summary>
    /// The language of title and abstract: an ISO 639 code of two or three small letters. The default is <c>en</c>.
    /// </summary>
    public string Language { get; init; } = "en";

    /// <summary>Under which licence it is published.</summary>
    public required Licence Licence { get; init; }

    /// <summary>Who made it.</summary>
    public required DatasetParty Creator { get; init; }

    /// <summary>Who answers questions.</summary>
    public required DatasetParty Contact { get; init; }

    /// <summary>Who publishes it.</summary>
    public required DatasetParty Publisher { get; init; }

    /// <summary>The day on which this version was published.</summary>
    public required DateOnly PublishedOn { get; init; }

    /// <summary>When this description was written, UTC.</summary>
    public required DateTime WrittenAt { get; init; }

    /// <summary>Where the specimens come from; null when not said.</summary>
    public GeographicCoverage? Geography { get; init; }

    /// <summary>The earliest collecting day; null when not said. Written only together with the last.</summary>
    public DateOnly? CollectedFrom { get; init; }

    /// <summary>The last collecting day; null when not said, not before the earliest.</summary>
    public DateOnly? CollectedTo { get; init; }

    /// <summary>Which plants, in words; null when not said.</summary>
    public string? TaxonomicCoverage { get; init; }

    /// <summary>
    /// The taxa that contain all of it, such as Plantae. The default is Plantae: the standard demands one where
    /// <see cref="TaxonomicCoverage"/> is said.
    /// </summary>
    public IReadOnlyList<string> Taxa { get; init; } = ["Plantae"];

    /// <summary>The name of the collection; never blank.</summary>
    public required string CollectionName { get; init; }

    /// <summary>An identifier of the collection, such as its address in a registry; null when there is none.</summary>
    public string? CollectionIdentifier { get; init; }

    /// <summary>The page of the data set; null when there is none, otherwise absolute.</summary>
    public Uri? HomePage { get; init; }

    /// <summary>Everything that keeps this from being a valid description; empty when it can be written.</summary>
    public IReadOnlyList<Refusal> Refusals()
    {
        (string What, string Text)[] needed =
        [
            ("a title", Title),
            ("an abstract", Abstract),
            ("the name of its collection", CollectionName),
            ("the organisation that made it", Creator.Organisation),
            ("the organisation to ask", Contact.Organisation),
            ("the organisation that publishes it", Publisher.Organisation),
        ];
        var missing = needed.Where(field => IsBlank(field.Text)).Select(field => $"The data set needs {field.What}.");
        return [.. missing.Concat(Impossible()).Select(reason => new Refusal(RefusalKind.Invalid, reason))];
    }

    // A text of nothing but control characters is blank too: that is what would be written.
    private static bool IsBlank(string text) => string.IsNullOrWhiteSpace(OneLine.Of(text));

    private IEnumerable<string> Impossible()
    {
        if (Version < 1)
        {
            yield return "Versions of a data set count from 1.";
        }

        if (Language.Length is not (2 or 3) || !Language.All(char.IsAsciiLetterLower))
        {
            yield return "The language of the data set is a code of two or three small letters, such as en.";
        }

        if (Geography is { } where && IsBlank(where.Description))
        {
            yield return "The region of the data set needs words, not only a box.";
        }

        if (Geography?.Box is { IsPossible: false })
        {
            yield return "The box of the data set is not on the globe, or its north is south of its south.";
        }

        if (CollectedFrom > CollectedTo)
        {
            yield return "The last collecting day of the data set is before the first.";
        }

        if (HomePage is { IsAbsoluteUri: false })
        {
            yield return $"The page of the data set, {HomePage}, needs a full address.";
        }
    }
}
