using Accession.Core.Localities;
using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

public sealed partial class Gathering
{
    /// <summary>
    /// Corrects facts of the accepted record. Nothing is overwritten: what is answered are the entries, to be kept; the
    /// facts as they stand, their keys and what everyone may know of the place are made anew.
    /// </summary>
    /// <param name="facts">How the facts are to stand.</param>
    /// <param name="held">The exact place that is kept apart; null where the place is not protected.</param>
    /// <param name="act">The act: who, when and why; a reason is needed.</param>
    /// <returns>The entries, none of which says the same twice; or why nothing was changed.</returns>
    /// <exception cref="InvalidOperationException">The place is protected and nothing is held.</exception>
    public Outcome<Correction[]> Correct(IReadOnlyList<CorrectedFact> facts, ExactLocality? held, Act act)
    {
        ArgumentNullException.ThrowIfNull(facts);
        if (act.Reason is null)
        {
            return new Refusal(RefusalKind.Invalid, "Write why: whoever reads the trail must know.")
            {
                Field = nameof(Act.Reason),
            };
        }

        var before = Facts(held);
        var after = facts.Aggregate(before, (all, fact) => all.With(fact.Field, fact.Text));
        var changed = facts.Where(fact => before.Text(fact.Field) != after.Text(fact.Field)).ToList();
        if (changed.Count == 0)
        {
            return new Refusal(RefusalKind.Conflict, $"All of it stands so already in the record of {Label}.");
        }

        if (after.Place is { Latitude: null, UncertaintyInMeters: not null })
        {
            return new Refusal(RefusalKind.Invalid,
                "A radius needs the point that it lies round: write the coordinates, or leave both empty.")
            {
                Field = nameof(CorrectedField.Uncertainty),
            };
        }

        var entries = changed.Select(fact => new Correction(
            this, fact.Field, before.Text(fact.Field), after.Text(fact.Field), act)).ToArray();
        Notes = after.Notes;
        Place = held is null ? after.Place : held.Take(after.Place, Protection);
        CountyKey = CountyName.KeyOf(Place.StateProvince, Place.County);
        // What duplicates are found by is made anew before any list is compared.
        (SignatureVersion, Version) = (0, Guid.NewGuid());
        return entries;
    }

    internal RecordedFacts Facts(ExactLocality? held) => held is null && Protection != SensitivityCategory.NotSensitive
        ? throw new InvalidOperationException("The place is protected, and its exact place was not given.")
        : new(Notes, held?.AsEveryoneMayKnow(Place, SensitivityCategory.NotSensitive) ?? Place);
}
