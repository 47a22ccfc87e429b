using Accession.Core.Outcomes;

namespace Accession.Core.Gatherings;

/// <summary>A fact as it is to stand.</summary>
/// <param name="Field">The field.</param>
/// <param name="Text">Its text; see <see cref="RecordedFacts"/>.</param>
public sealed record CorrectedFact(CorrectedField Field, string Text);

/// <summary>What a curator wants to change in one gathering or in many.</summary>
public abstract record FactChange
{
    /// <summary>The fields that it is about.</summary>
    public abstract IReadOnlyCollection<CorrectedField> Fields { get; }

    /// <summary>How the facts of a gathering are to stand; those alone that change. Or why that cannot be.</summary>
    /// <param name="now">The facts as they stand.</param>
    /// <param name="today">The day it is here.</param>
    public abstract Outcome<CorrectedFact[]> Read(RecordedFacts now, DateOnly today);

    /// <summary>What stands in the fields from now on, as it was typed.</summary>
    /// <param name="Typed">The text of each field that is meant; blank where nothing is known any more.</param>
    public sealed record Set(IReadOnlyDictionary<CorrectedField, string?> Typed) : FactChange
    {
        /// <inheritdoc/>
        public override IReadOnlyCollection<CorrectedField> Fields => [.. Typed.Keys];

        /// <inheritdoc/>
        public override Outcome<CorrectedFact[]> Read(RecordedFacts now, DateOnly today) =>
            Gather(Typed.OrderBy(one => one.Key), now, today);
    }

    /// <summary>A text that stands in a field is replaced by another, wherever it stands there to the letter.</summary>
    /// <param name="Field">A field of words.</param>
    /// <param name="Find">What is replaced.</param>
    /// <param name="With">What stands in its place.</param>
    public sealed record Replace(CorrectedField Field, string Find, string With) : FactChange
    {
        /// <inheritdoc/>
        public override IReadOnlyCollection<CorrectedField> Fields => [Field];

        /// <inheritdoc/>
        public override Outcome<CorrectedFact[]> Read(RecordedFacts now, DateOnly today)
        {
            ArgumentNullException.ThrowIfNull(now);
            if (!Field.IsWords() || Find.Length == 0)
            {
                return new Refusal(RefusalKind.Invalid, "Write what is to be replaced, in a field of words.");
            }

            var replaced = now.Text(Field).Replace(Find, With, StringComparison.Ordinal);
            return Gather([new(Field, replaced)], now, today);
        }
    }

    /// <summary>What a correction changed stands as before; only where nobody corrected it again since.</summary>
    /// <param name="Made">What was changed, each with what stood before and what it became.</param>
    public sealed record TakeBack(IReadOnlyList<(CorrectedField Field, string Before, string After)> Made) : FactChange
    {
        /// <inheritdoc/>
        public override IReadOnlyCollection<CorrectedField> Fields => [.. Made.Select(one => one.Field)];

        /// <inheritdoc/>
        public override Outcome<CorrectedFact[]> Read(RecordedFacts now, DateOnly today)
        {
            ArgumentNullException.ThrowIfNull(now);
            return Made.Any(one => now.Text(one.Field) != one.After)
                ? new Refusal(RefusalKind.Conflict,
                    "This was corrected once more since. Take that back first, or correct it by hand.")
                : Made.Select(one => new CorrectedFact(one.Field, one.Before)).ToArray();
        }
    }

    private static Outcome<CorrectedFact[]> Gather(
        IEnumerable<KeyValuePair<CorrectedField, string?>> typed, RecordedFacts now, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(now);
        List<Refusal> refusals = [];
        List<CorrectedFact> facts = [];
        foreach (var (field, text) in typed)
        {
            var read = TypedFact.Read(field, text, now, today);
            if (read.IsRefused)
            {
                refusals.AddRange(read.Refusals.Select(refusal => refusal with { Field = field.ToString() }));
            }
            else if (read.Value != now.Text(field))
            {
                facts.Add(new(field, read.Value));
            }
        }

        return refusals.Count > 0 ? refusals : facts.ToArray();
    }
}
