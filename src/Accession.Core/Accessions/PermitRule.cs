using Accession.Core.Batches;
using Accession.Core.Gatherings;
using Accession.Core.Matching;
using Accession.Core.People;
using Accession.Core.Standards.Countries;

namespace Accession.Core.Accessions;

/// <summary>
/// Compares rows with the permits of their batch: dates, places and plants, and nothing else. What is not written in a
/// row contradicts nothing. What a permit allows is decided by whoever issued it and by local rules.
/// </summary>
public sealed class PermitRule
{
    private readonly IReadOnlyList<Prepared> _permits;

    /// <summary>Prepares for a batch.</summary>
    /// <param name="permits">Its permits that hold, in the order in which they are named when equally near.</param>
    public PermitRule(IEnumerable<PermitTerms> permits) => _permits = [.. permits.Select(Prepared.Of)];

    /// <summary>
    /// Why a row lies outside, or may lie outside, of every permit: the reasons of the nearest one, in sentences. Null
    /// when a permit covers it, and when there is none.
    /// </summary>
    /// <param name="reading">What was read from the row.</param>
    public string? Warning(RowReading reading)
    {
        (int Sure, int All, string Words)? nearest = null;
        foreach (var permit in _permits)
        {
            var objections = permit.Against(reading).ToList();
            if (objections.Count == 0)
            {
                return null;
            }

            var sure = objections.Count(objection => objection.IsSure);
            if (nearest is not { } best || (sure, objections.Count).CompareTo((best.Sure, best.All)) < 0)
            {
                var sentences = string.Join(" ", objections.Select(objection => objection.Sentence));
                nearest = (sure, objections.Count, $"{permit.Name}: {sentences}");
            }
        }

        return nearest?.Words;
    }

    // Sure: it lies outside; otherwise it may.
    private readonly record struct Objection(bool IsSure, string Sentence);

    /// <summary>A permit with its places and plants as they are compared.</summary>
    private sealed record Prepared(
        string Name, PermitTerms Terms, ushort Country, ushort State, HashSet<ushort> Counties, List<PermitTaxon> Taxa)
    {
        public static Prepared Of(PermitTerms terms) => new(
            PermitWords.NameOf(terms), terms,
            terms.Country.Length == 0
                ? (ushort)0
                : RegionKey.OfCountry(CountryCode.Of(terms.Country) ?? "", terms.Country),
            RegionKey.OfState(terms.StateProvince),
            [.. terms.Counties.Select(RegionKey.OfCounty).Where(key => key != 0)],
            [.. terms.Taxa.Select(PermitTaxon.Of)]);

        public IEnumerable<Objection> Against(RowReading reading)
        {
            if (AgainstDate(reading.Notes.EventDate) is { } date)
            {
                yield return date;
            }

            if (AgainstPlace(reading) is { } place)
            {
                yield return new(IsSure: true, place);
            }

            if (AgainstPlant(reading.Notes) is { } plant)
            {
                yield return plant;
            }
        }

        private Objection? AgainstDate(string eventDate)
        {
            if (Terms is { From: null, Until: null })
            {
                return null;
            }

            var validity = PermitWords.Validity(Terms.From, Terms.Until);
            if (eventDate.Length == 0)
            {
                return new(IsSure: false, $"No collecting date could be read; it may lie outside {validity}.");
            }

            var date = CollectingDate.FromIso8601(eventDate);
            return date switch
            {
                _ when Terms.Until is { } until && date.Earliest > until => new(IsSure: true,
                    $"It was collected on {date.ForPeople()}, after the permit ended on {Days.Words(until)}."),
                _ when Terms.From is { } from && date.Latest < from => new(IsSure: true,
                    $"It was collected on {date.ForPeople()}, before the permit began on {Days.Words(from)}."),
                _ when date.Earliest >= (Terms.From ?? DateOnly.MinValue)
                    && date.Latest <= (Terms.Until ?? DateOnly.MaxValue) => null,
                { IsRange: true } => new(IsSure: false,
                    $"It was collected some time in {date.ForPeople()}; it may lie outside {validity}."),
                { Precision: DatePrecision.Year } => new(IsSure: false,
                    $"Only the year is known ({date.ForPeople()}); it may lie outside {validity}."),
                _ => new(IsSure: false,
                    $"Only the month is known ({date.ForPeople()}); it may lie outside {validity}."),
            };
        }

        private string? AgainstPlace(RowReading reading)
        {
            var place = reading.Place;
            var hasCountry = place.CountryCode.Length + place.Country.Length > 0;
            if (Country != 0 && hasCountry && RegionKey.OfCountry(place.CountryCode, place.Country) != Country)
            {
                return Elsewhere(place.Country.Length > 0 ? place.Country : place.CountryCode, Terms.Country);
            }

            var state = RegionKey.OfState(place.StateProvince);
            if (State != 0 && state != 0 && state != State)
            {
                return Elsewhere(place.StateProvince, Terms.StateProvince);
            }

            var county = RegionKey.OfCounty(place.County);
            return Counties.Count > 0 && county != 0 && !Counties.Contains(county)
                ? Elsewhere(place.County, Shortly(Terms.Counties))
                : null;
        }

        private static string Elsewhere(string there, string permitted) =>
            $"It was collected in {there}, and the permit is for {permitted.TrimEnd('.')}.";

        private Objection? AgainstPlant(FieldNotes notes)
        {
            if (Taxa.Count == 0)
            {
                return null;
            }

            var plant = PlantKey.Of(notes);
            var family = PermitTaxon.FamilyKey(notes.Family);
            var answers = Taxa.Select(taxon => taxon.Covers(plant, family)).ToList();
            return answers.Contains(true) ? null
                : answers.Contains(null) ? plant is { Genus.Length: > 0, Species: "" } && IsNamedTooCoarsely(plant)
                    ? new(IsSure: false, $"It is named to the genus only ({notes.NameVerbatim}); it may be another "
                        + $"plant than those of the permit ({Shortly(Terms.Taxa)}).")
                    : null
                : new(IsSure: true,
                    $"{(notes.NameVerbatim.Length > 0 ? notes.NameVerbatim : notes.Family)} is not among the plants of "
                    + $"the permit ({Shortly(Terms.Taxa)}).");
        }

        private bool IsNamedTooCoarsely(PlantKey plant) =>
            Taxa.Any(taxon => taxon.Genus == plant.Genus && taxon.Species.Length > 0);

        private static string Shortly(IReadOnlyList<string> names) => names.Count <= 4
            ? string.Join(", ", names)
            : $"{string.Join(", ", names.Take(3))} and {names.Count - 3} more";
    }
}
