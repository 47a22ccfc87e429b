using System.Globalization;
using Accession.Core.Outcomes;

namespace Accession.Core.FreezerLoads;

/// <summary>How long a house rule wants a load to stay in at a freezer set to a threshold.</summary>
/// <param name="ThresholdCelsius">At or below this, in °C.</param>
/// <param name="Hours">With the lid closed, in hours, 1 to 5,000.</param>
public sealed record RuleHours(decimal ThresholdCelsius, int Hours)
{
    /// <summary>Reads lines such as "−30 72": a temperature in °C, a blank, and hours.</summary>
    /// <param name="text">The lines.</param>
    public static Outcome<IReadOnlyList<RuleHours>> ReadAll(string? text)
    {
        List<RuleHours> read = [];
        const StringSplitOptions tidy = StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries;
        foreach (var line in (text ?? "").Split('\n', tidy))
        {
            var words = line.Replace("°C", " ", StringComparison.Ordinal).Split(' ', tidy);
            if (words.Length < 2 || !Celsius.Read(words[0]).IsRead || Celsius.Read(words[0]).Value is >= 0 or < -90
                || !int.TryParse(words[1], NumberStyles.None, CultureInfo.InvariantCulture, out var hours)
                || hours is < 1 or > 5000)
            {
                return new Refusal(RefusalKind.Invalid,
                    $"\"{line}\" is not read. Write °C below 0 and whole hours on each line, as −30 72.");
            }

            read.Add(new(Celsius.Read(words[0]).Value, hours));
        }

        return read is [] or { Count: > 10 }
            ? new Refusal(RefusalKind.Invalid, "Write one line at least and ten at most, each with °C and hours.")
            : read;
    }
}

/// <summary>
/// A dated rule of the institution for loads without a logger. It proves nothing; what it lets in is always shown as
/// let in by it.
/// </summary>
public sealed class HouseRule
{
    private readonly List<HouseRuleHours> _hours = [];

    private HouseRule()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The rule in the institution's words; at most 1,000 characters.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Who decided it, or what it leans on; at most 500 characters.</summary>
    public string Source { get; private set; } = "";

    /// <summary>The day from which it holds: loads begun earlier are not let in by it.</summary>
    public DateOnly HoldsFrom { get; private set; }

    /// <summary>How long a load stays sealed after it was taken out, in hours, 0 to 240.</summary>
    public int OpenAfterHours { get; private set; }

    /// <summary>The act that made it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that made it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that ended it; null while it holds.</summary>
    public long? EndedActId { get; private set; }

    /// <summary>The act that ended it.</summary>
    public Act? EndedAct { get; private set; }

    /// <summary>How long a load must have been in, for each threshold.</summary>
    public IReadOnlyList<HouseRuleHours> Hours => _hours;

    /// <summary>Makes a rule.</summary>
    /// <param name="text">The rule in words.</param>
    /// <param name="source">Who decided it, or what it leans on.</param>
    /// <param name="holdsFrom">From which day; null when nobody wrote one.</param>
    /// <param name="openAfterHours">How long a load stays sealed, in hours.</param>
    /// <param name="hours">How long a load must have been in, for each threshold.</param>
    /// <param name="by">Who makes it; only curators may.</param>
    /// <param name="act">The act.</param>
    public static Outcome<HouseRule> Make(
        string? text, string? source, DateOnly? holdsFrom, int openAfterHours, IReadOnlyList<RuleHours> hours, Actor by,
        Act act)
    {
        if (!by.Roles.Contains(Role.Curator))
        {
            return new Refusal(RefusalKind.NotAllowed, "Only a curator makes a house rule.");
        }

        var (words, from) = ((text ?? "").Trim(), (source ?? "").Trim());
        if (words.Length is 0 or > 1000 || from.Length is 0 or > 500)
        {
            return new Refusal(RefusalKind.Invalid,
                "Write the rule (at most 1,000 characters) and who decided it or what it leans on (at most 500).");
        }

        if (holdsFrom is null || openAfterHours is < 0 or > 240 || hours.Count == 0)
        {
            return new Refusal(RefusalKind.Invalid,
                "Write the day from which it holds, 0 to 240 hours sealed, and at least one line of °C and hours.");
        }

        var rule = new HouseRule
        {
            Text = words,
            Source = from,
            HoldsFrom = holdsFrom.Value,
            OpenAfterHours = openAfterHours,
            Act = act,
        };
        rule._hours.AddRange(hours.Select(one => new HouseRuleHours(one)));
        return rule;
    }

    /// <summary>Ends it; what it let in stays as it is.</summary>
    /// <param name="by">Who ends it; only curators may.</param>
    /// <param name="act">The act.</param>
    public Refusal? End(Actor by, Act act)
    {
        if (!by.Roles.Contains(Role.Curator))
        {
            return new(RefusalKind.NotAllowed, "Only a curator ends a house rule.");
        }

        if (EndedActId is not null)
        {
            return new(RefusalKind.Conflict, "That rule was ended already.");
        }

        EndedAct = act;
        return null;
    }

    /// <summary>Why it does not let a load in; null when it does.</summary>
    /// <param name="thresholdCelsius">The threshold of the load's regime, to which the freezer is set, in °C.</param>
    /// <param name="begun">The day on which the load's clock began.</param>
    /// <param name="inside">How long the load was in without the lid being opened.</param>
    public Refusal? WhyNot(decimal thresholdCelsius, DateOnly begun, TimeSpan inside)
    {
        if (EndedActId is not null || EndedAct is not null)
        {
            return new(RefusalKind.Conflict, "That house rule was ended.");
        }

        if (begun < HoldsFrom)
        {
            return new(RefusalKind.NotAllowed, string.Create(CultureInfo.InvariantCulture,
                $"The house rule holds from {HoldsFrom:d MMM yyyy}, and the load was begun before."));
        }

        var met = _hours.Where(one => thresholdCelsius <= one.ThresholdCelsius).ToList();
        if (met.Count == 0)
        {
            return new(RefusalKind.NotAllowed,
                $"The house rule says nothing of loads at {Celsius.Words(thresholdCelsius)}.");
        }

        var least = met.Min(one => one.Hours);
        return inside >= TimeSpan.FromHours(least)
            ? null
            : new(RefusalKind.NotAllowed, string.Create(CultureInfo.InvariantCulture,
                $"The house rule asks for {least} h at {Celsius.Words(thresholdCelsius)} with the lid closed, and it ")
                + string.Create(CultureInfo.InvariantCulture,
                    $"was {Math.Floor(inside.TotalHours * 10) / 10:0.#} h. Repeat the load."));
    }
}

/// <summary>A line of a house rule.</summary>
public sealed class HouseRuleHours
{
    private HouseRuleHours()
    {
    }

    internal HouseRuleHours(RuleHours line) => (ThresholdCelsius, Hours) = (line.ThresholdCelsius, line.Hours);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The rule.</summary>
    public long HouseRuleId { get; private set; }

    /// <summary>At or below this, in °C.</summary>
    public decimal ThresholdCelsius { get; private set; }

    /// <summary>How long with the lid closed, in hours.</summary>
    public int Hours { get; private set; }
}
