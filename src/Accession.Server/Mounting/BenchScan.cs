using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Shared;

namespace Accession.Server.Mounting;

/// <summary>A scan at the step bench and what came of it, in the words of the page.</summary>
/// <param name="Mark">done, waiting or stop: shape, tone and colour.</param>
public sealed record BenchScan(string Mark, string Code, string State, string Verdict, string Says, string? Address)
{
    private const string Badge = "Badge";

    public static BenchScan Of(BenchDone done) => new(
        done.IsTakenBack ? "waiting" : "done", done.Code, done.State,
        done.IsTakenBack ? $"{done.Code}: taken back" : $"{done.Code} {done.Said}",
        Joined(
            done.Label, done.Name,
            done.CatalogNumber.Length == 0 ? ""
                : done.Next is { } next ? $"next: {TreatmentWords.Waits(next)}" : "nothing waits"),
        done.CatalogNumber.Length == 0
            ? $"/parcel/{done.Code}"
            : SpecimenAddress.Of(done.CatalogNumber, done.Repeat, isRepeated: done.Repeat > 0));

    public static BenchScan Refused(string code, IReadOnlyList<Refusal> refusals) => new(
        "stop", code, "Refused", $"{code}: not done", string.Join(" ", refusals.Select(r => r.Reason)), null);

    public static BenchScan OnRecord(
        Step step, bool isTakenBack, string code, string label, string name, string address) => new(
        isTakenBack ? "waiting" : "done", code, isTakenBack ? "Taken back" : TreatmentWords.Of(step), "",
        Joined(label, name), address);

    /// <summary>A badge was scanned; its code is shown nowhere.</summary>
    public static BenchScan TookUp(Outcome<string> outcome) => outcome.IsRefused
        ? new("stop", Badge, "Refused", "The badge was not taken",
            string.Join(" ", outcome.Refusals.Select(r => r.Reason)), null)
        : new("done", Badge, "Hands changed", $"{outcome.Value} is at the bench", "The scans bear that name.", null);

    /// <summary>Whoever is signed in works again.</summary>
    public static BenchScan HandedBack(string name) => new(
        "done", BenchCommand.HandBack, "Hands changed", $"{name} is at the bench", "The scans bear that name.", null);

    /// <summary>Something else is done from now on.</summary>
    public static BenchScan Now(BenchDoing doing) => new(
        "done", doing.Word, "Now", doing.Title, $"{doing.Asks}.", null);

    /// <summary>A command that has no meaning here.</summary>
    public static BenchScan SameAlready(string word) => new(
        "waiting", word, "As before", "Go on scanning",
        "At this bench each scan does the same as the one before, until another step, place or freezer is scanned.",
        null);

    private static string Joined(params string[] facts) => string.Join(", ", facts.Where(fact => fact.Length > 0));
}
