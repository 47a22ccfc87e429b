using Accession.Core.Gatherings;
using Accession.Core.Localities;

namespace Accession.Core.Batches;

/// <summary>What a row of a list means: what was read from it, and what could not be.</summary>
/// <param name="Notes">The field notes, each text to the letter beside what was read from it.</param>
/// <param name="Place">Where it grew, as held.</param>
/// <param name="Sheets">How many sheets the row stands for; at least 1.</param>
/// <param name="Faults">What could not be read, and what a person should look at.</param>
public sealed record RowReading(FieldNotes Notes, PublicPlace Place, int Sheets, IReadOnlyList<RowFault> Faults)
{
    /// <summary>
    /// The number that the sheet bears and keeps, to the letter; empty in lists of sheets that get their number here,
    /// and where the list gives none that can be kept.
    /// </summary>
    public string CatalogNumber { get; init; } = "";

    /// <summary>
    /// Collector and number folded into one text, by which a corrected row finds the row it corrects. Without a number,
    /// the day and the name stand in for it; empty when the collector or both of these are missing. A sheet that bears
    /// its number already is known by that alone.
    /// </summary>
    public string PairKey
    {
        get
        {
            var key = Notes switch
            {
                _ when CatalogNumber.Length > 0 => $"sheet|{CatalogNumber}",
                { CollectorKey: "" } => "",
                { NumberKey.Length: > 0 } => $"{Notes.CollectorKey}|{Notes.NumberKey}",
                { EventDate.Length: > 0, NameVerbatim.Length: > 0 } =>
                    $"{Notes.CollectorKey}||{Notes.EventDate}|{Texts.Folding.Fold(Notes.NameVerbatim)}",
                _ => "",
            };
            return key.Length <= 200 ? key : key[..200];
        }
    }
}
