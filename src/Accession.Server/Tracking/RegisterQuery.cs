using System.Globalization;
using Accession.Core.Specimens;

namespace Accession.Server.Tracking;

/// <summary>What is asked of the register, as it stands in the address; every field may be missing.</summary>
public sealed class RegisterQuery
{
    private const string WaitsFor = "waits-";
    private const string IsDone = "done-";
    private const string IsLacking = "lacks-";

    public string? Q { get; set; }

    public string? Taxon { get; set; }

    public string? Collector { get; set; }

    public string? County { get; set; }

    public string? Accession { get; set; }

    public int? From { get; set; }

    public int? To { get; set; }

    /// <summary>"waits-mounted", "done-mounted" or "lacks-mounted".</summary>
    public string? Step { get; set; }

    public string? Holder { get; set; }

    public string? Place { get; set; }

    /// <summary>The question, tidied.</summary>
    public FindSheets.Asked Asked => new(Tidy(Q))
    {
        Taxon = Tidy(Taxon),
        Collector = Tidy(Collector),
        County = Tidy(County),
        Accession = Tidy(Accession),
        FromYear = From,
        ToYear = To,
        Waits = StepIn(WaitsFor),
        Done = StepIn(IsDone),
        Lacks = StepIn(IsLacking),
        Holder = Tidy(Holder),
        Place = Tidy(Place),
    };

    /// <summary>The question as it stands behind an address, without blanks; empty where nothing is asked.</summary>
    /// <param name="before">Behind which sheet the page begins; null for the first.</param>
    public string ToAddress(long? before = null)
    {
        var asked = Asked;
        return QueryString.Create(new Dictionary<string, string?>
        {
            ["q"] = asked.Text,
            ["taxon"] = asked.Taxon,
            ["collector"] = asked.Collector,
            ["county"] = asked.County,
            ["accession"] = asked.Accession,
            ["from"] = Number(From),
            ["to"] = Number(To),
            ["step"] = asked.Waits is { } waits ? WaitsFor + Word(waits)
                : asked.Done is { } done ? IsDone + Word(done)
                : asked.Lacks is { } lacks ? IsLacking + Word(lacks)
                : null,
            ["holder"] = asked.Holder,
            ["place"] = asked.Place,
            ["before"] = Number(before),
        }.Where(pair => pair.Value is not null)).Value ?? "";
    }

    /// <summary>The same question with another text in the box, as it stands behind the address.</summary>
    public string With(string text) => new RegisterQuery
    {
        Q = text,
        Taxon = Taxon,
        Collector = Collector,
        County = County,
        Accession = Accession,
        From = From,
        To = To,
        Step = Step,
        Holder = Holder,
        Place = Place,
    }.ToAddress();

    private Step? StepIn(string beginning) =>
        Step?.StartsWith(beginning, StringComparison.OrdinalIgnoreCase) == true
            && Step[beginning.Length..] is { Length: > 0 } word && char.IsAsciiLetter(word[0])
            && Enum.TryParse<Step>(word, ignoreCase: true, out var step)
            ? step
            : null;

    private static string Word(Step step) => step.ToString().ToLowerInvariant();

    private static string? Number(long? number) => number?.ToString(CultureInfo.InvariantCulture);

    // What no keyboard types is no part of a question; a NUL is more than PostgreSQL takes.
    private static string? Tidy(string? text) =>
        string.Concat((text ?? "").Where(letter => !char.IsControl(letter))).Trim() is { Length: > 0 } tidy
            ? tidy
            : null;
}
