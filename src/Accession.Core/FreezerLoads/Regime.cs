using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.FreezerLoads;

/// <summary>What a regime asks of a load.</summary>
/// <param name="Name">Its name; may be repeated by a later edition only.</param>
/// <param name="ThresholdCelsius">The temperature that the core must reach, in °C; below zero, not below −90.</param>
/// <param name="ExposureHours">How long the core stays at or below it without a break, in hours, 1 to 2,000.</param>
/// <param name="Cycles">How many such times, 1 to 5.</param>
/// <param name="IntervalHours">How long it is warm between two of them, in hours, 0 to 500.</param>
/// <param name="OpenAfterHours">How long a load stays sealed after it was taken out, in hours, 0 to 240.</param>
/// <param name="Source">Who says so; at most 500 characters.</param>
public sealed record RegimeTerms(
    string Name, decimal ThresholdCelsius, int ExposureHours, int Cycles, int IntervalHours, int OpenAfterHours,
    string Source)
{
    /// <summary>How long a load stays sealed by default: a rule of thumb, and longer for thick bundles.</summary>
    public const int UsualOpenAfterHours = 24;

    /// <summary>Why this cannot be a regime; null when it can.</summary>
    public Refusal? WhyNot() => Name.Length is 0 or > 100 || Source.Length is 0 or > 500
        ? new(RefusalKind.Invalid, "Write the regime's name (at most 100 characters) and its source (at most 500).")
        : ThresholdCelsius is >= 0 or < -90 || decimal.Round(ThresholdCelsius, 1) != ThresholdCelsius
            ? new(RefusalKind.Invalid, "The threshold lies below 0 °C, not below −90 °C, with one decimal at most.")
            : ExposureHours is < 1 or > 2000 || Cycles is < 1 or > 5 || IntervalHours is < 0 or > 500
                || OpenAfterHours is < 0 or > 240
                ? new(RefusalKind.Invalid,
                    "Exposure takes 1 to 2,000 hours, 1 to 5 times, 0 to 500 hours between, and 0 to 240 hours sealed.")
                : null;
}

/// <summary>
/// A pair of temperature and time with its source: data that a curator chooses, never a rule of the program. It is not
/// edited: a later edition replaces it, and loads keep the one they were begun with.
/// </summary>
public sealed class Regime
{
    private Regime()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>Its name.</summary>
    public string Name { get; private set; } = "";

    /// <summary>Which edition of this name, from 1.</summary>
    public int Edition { get; private set; }

    /// <summary>The temperature that the core must reach, in °C.</summary>
    public decimal ThresholdCelsius { get; private set; }

    /// <summary>How long the core stays there without a break, in hours.</summary>
    public int ExposureHours { get; private set; }

    /// <summary>How many such times.</summary>
    public int Cycles { get; private set; }

    /// <summary>How long it is warm between two of them, in hours.</summary>
    public int IntervalHours { get; private set; }

    /// <summary>How long a load stays sealed after it was taken out, in hours.</summary>
    public int OpenAfterHours { get; private set; }

    /// <summary>Who says so.</summary>
    public string Source { get; private set; } = "";

    /// <summary>The act that wrote it down; null for those that came with the program.</summary>
    public long? ActId { get; private set; }

    /// <summary>The act that wrote it down.</summary>
    public Act? Act { get; private set; }

    /// <summary>What it asks, in words: at or below −20 °C for 48 h, 2 times with 24 h warm between.</summary>
    public string Words => string.Create(CultureInfo.InvariantCulture,
        $"at or below {Celsius.Words(ThresholdCelsius)} for {ExposureHours} h")
        + (Cycles == 1 ? "" : string.Create(CultureInfo.InvariantCulture,
            $", {Cycles} times, at least {IntervalHours} h warm between"));

    /// <summary>Writes an edition down.</summary>
    /// <param name="terms">What it asks.</param>
    /// <param name="edition">Which edition of this name it is.</param>
    /// <param name="act">The act.</param>
    public static Outcome<Regime> Write(RegimeTerms terms, int edition, Act act) => terms.WhyNot() is { } refusal
        ? refusal
        : new Regime
        {
            Name = terms.Name,
            Edition = edition,
            ThresholdCelsius = terms.ThresholdCelsius,
            ExposureHours = terms.ExposureHours,
            Cycles = terms.Cycles,
            IntervalHours = terms.IntervalHours,
            OpenAfterHours = terms.OpenAfterHours,
            Source = terms.Source,
            Act = act,
        };
}
