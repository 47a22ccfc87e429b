using Accession.Core.Gatherings;
using Accession.Core.Localities;

namespace Accession.Server.Receiving;

/// <summary>
/// The label of a row or a gathering, fact by fact in the order of labels, to be held beside another.
/// </summary>
/// <param name="Title">What it is: a line of the list, or a gathering of the register.</param>
/// <param name="Address">Where it is looked at by itself; null when nowhere.</param>
/// <param name="IsProtected">Whether its exact place is kept apart and not shown here.</param>
public sealed record FindingLabel(string Title, string? Address, FieldNotes Notes, PublicPlace Place, bool IsProtected)
{
    /// <summary>
    /// A line of the label; whether the other label says something else there, and whether only the other says it.
    /// </summary>
    public sealed record Line(string Text, bool Differs, bool IsMissing)
    {
        public bool IsEmpty => Text.Length == 0;
    }

    public Line Region(FindingLabel? other) => Of(other, label => Joined(
        label.Place.County, label.Place.StateProvince, label.Place.Country));

    public Line Family(FindingLabel? other) => Of(other, label => label.Notes.Family);

    public Line Name(FindingLabel? other) => Of(other, label => label.Notes.NameVerbatim);

    public Line Locality(FindingLabel? other) => Of(other, label => Joined(
        label.Place.Municipality, label.Place.Locality));

    public Line Point(FindingLabel? other) => Of(other, label =>
        label.Place.CoordinatesVerbatim.Length > 0 ? label.Place.CoordinatesVerbatim
        : label.Place is { Latitude: { } latitude, Longitude: { } longitude }
            ? FormattableString.Invariant($"{latitude:0.#####}, {longitude:0.#####}")
            : "");

    public Line Elevation(FindingLabel? other) => Of(other, label => label.Place.ElevationVerbatim);

    public Line Habitat(FindingLabel? other) => Of(other, label => Joined(label.Place.Habitat, label.Place.Remarks));

    public Line Collectors(FindingLabel? other) => Of(other, label => label.Notes.CollectorsVerbatim);

    public Line Number(FindingLabel? other) => Of(other, label => label.Notes.RecordNumber);

    public Line Date(FindingLabel? other) => Of(other, label =>
        Shared.LabelDate.Of(label.Notes.EventDate, label.Notes.DateVerbatim));

    private Line Of(FindingLabel? other, Func<FindingLabel, string> fact)
    {
        var (text, theirs) = (fact(this), other is null ? "" : fact(other));
        return new(
            text, text.Length > 0 && theirs.Length > 0 && Folded(text) != Folded(theirs),
            text.Length == 0 && theirs.Length > 0);
    }

    private static string Joined(params ReadOnlySpan<string> parts) =>
        string.Join(", ", parts.ToArray().Where(part => part.Length > 0));

    // Stops, commas and spacing tell nobody that two labels differ.
    private static string Folded(string text) => string.Concat(
        Core.Texts.Folding.Fold(text).Where(char.IsLetterOrDigit));
}
