using System.Text.Json;
using Accession.Core.Batches;

namespace Accession.Server.Receiving;

/// <summary>One thing that is typed from a label.</summary>
/// <param name="Heading">The heading of its column, and the name of its field in the form.</param>
/// <param name="Meaning">What it means.</param>
/// <param name="Label">What stands beside the field.</param>
/// <param name="Width">How wide the field is: short, half or whole.</param>
public sealed record TypedField(string Heading, ListField Meaning, string Label, string Width)
{
    /// <summary>More than any label says in one place, in characters.</summary>
    public const int Longest = 2_000;
}

/// <summary>What is typed from a label, in the order in which the eye finds it there.</summary>
public static class TypedFields
{
    public static IReadOnlyList<TypedField> All { get; } =
    [
        new("Collector", ListField.RecordedBy, "Collector", "half"),
        new("Number", ListField.RecordNumber, "Number", "short"),
        new("Date", ListField.EventDate, "Date", "short"),
        new("Name", ListField.ScientificName, "Name", "half"),
        new("Determined by", ListField.IdentifiedBy, "Determined by", "short"),
        new("Date determined", ListField.DateIdentified, "Date determined", "short"),
        new("Country", ListField.Country, "Country", "short"),
        new("State", ListField.StateProvince, "State or province", "short"),
        new("County", ListField.County, "County", "short"),
        new("Place", ListField.Locality, "Place", "whole"),
        new("Coordinates", ListField.VerbatimCoordinates, "Coordinates", "half"),
        new("Elevation", ListField.VerbatimElevation, "Elevation", "short"),
        new("Habitat", ListField.Habitat, "Habitat", "whole"),
        new("Habit", ListField.OccurrenceRemarks, "Habit", "half"),
        new("Notes", ListField.OccurrenceRemarks, "Notes", "half"),
        new("Sheets", ListField.Sheets, "Sheets", "short"),
    ];

    /// <summary>The headings as a list stores them.</summary>
    public static string Headings { get; } = JsonSerializer.Serialize(All.Select(field => field.Heading));

    /// <summary>What the headings mean, as a batch stores it.</summary>
    public static string Match { get; } = JsonSerializer.Serialize(
        All.ToDictionary(field => field.Heading, field => field.Meaning.Name));
}
