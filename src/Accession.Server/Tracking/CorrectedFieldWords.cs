using Accession.Core.Gatherings;
using Accession.Storage.Localities;

namespace Accession.Server.Tracking;

/// <summary>The fields that can be corrected, in words.</summary>
internal static class CorrectedFieldWords
{
    /// <summary>What a field is called.</summary>
    public static string Said(this CorrectedField field) => field switch
    {
        CorrectedField.Number => "Collector number",
        CorrectedField.Date => "Date",
        CorrectedField.AssociatedTaxa => "Grew with",
        CorrectedField.OtherNumbers => "Other numbers",
        CorrectedField.StateProvince => "State or province",
        CorrectedField.GeodeticDatum => "Datum",
        _ => field.ToString(),
    };

    /// <summary>How it is to be written; empty where that needs no word.</summary>
    public static string Hint(this CorrectedField field) => field switch
    {
        CorrectedField.Collectors => "The one whose number it is first, then the others, with semicolons between.",
        CorrectedField.Date => "As 2024-06-14, Jun 2024 or 1931.",
        CorrectedField.OtherNumbers => "With a bar between two: UTX:1204 | 77.",
        CorrectedField.Coordinates => "Latitude, then longitude, in any notation; read into degrees.",
        CorrectedField.Uncertainty => "A radius with its unit: 30 m.",
        CorrectedField.Elevation => "With its unit: 4,120 ft or 1200-1250 m.",
        _ => "",
    };

    /// <summary>A correction as a sentence of the trail.</summary>
    public static string Sentence(this CorrectedRecords.Entry entry)
    {
        var verb = entry.TakesBackActId is null ? "corrected" : "put back";
        var values = entry.Before is null || entry.After is null
            ? ": withheld with the place"
            : $" from {Quoted(entry.Before)} to {Quoted(entry.After)}";
        return $"{entry.Field.Said()} {verb}{values}{(entry.Reason is { } reason ? $": {reason}" : "")}";
    }

    /// <summary>A text in quotation marks; in words where there is none.</summary>
    public static string Quoted(string text) => text.Length == 0 ? "nothing" : $"“{text}”";
}
