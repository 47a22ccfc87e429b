using Accession.Core.Determinations;
using Accession.Core.Localities;
using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;
using Accession.Storage.Databases;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>One line of what was done to a specimen.</summary>
/// <param name="Act">The act of a correction, which has a page of its own.</param>
public sealed record TrailEntry(DateTime At, string What, string Who, long? Act = null);

/// <summary>
/// Whatever was entered for a specimen after it got its number, corrections apart. The entries stand in eight tables
/// and come in one statement: nearly every sheet has only a few of them, and each statement costs as much as all. One
/// for each register, as <see cref="SheetStatements"/>.
/// </summary>
public sealed class SpecimenTrail
{
    private enum Kind
    {
        Custody,
        Step,
        Cleared,
        Moved,
        Protection,
        Named,
        Chosen,
        Filed,
    }

    // What a column holds goes by the kind; a table that has nothing to say there says nothing.
    private sealed class Line
    {
        public Kind Kind { get; init; }

        public DateTime At { get; init; }

        public string Who { get; init; } = "";

        public string What { get; init; } = "";

        public string? More { get; init; }

        public string? Reason { get; init; }

        public int? Number { get; init; }
    }

    private readonly Func<AccessionDb, long, long, IAsyncEnumerable<Line>> _lines = EF.CompileAsyncQuery(
        (AccessionDb db, long specimen, long gathering) => db.Parts.Where(p => p.SpecimenId == specimen)
            .SelectMany(p => p.Custody)
            .Select(c => new Line
            {
                Kind = Kind.Custody,
                At = c.Act.At,
                Who = c.Act.ActorName,
                What = c.Holder,
                More = null,
                Reason = null,
                Number = null,
            })
            .Concat(db.Parts.Where(p => p.SpecimenId == specimen)
                .SelectMany(p => p.Steps)
                .Where(s => s.Step != Step.Treated)
                .Select(s => new Line
                {
                    Kind = Kind.Step,
                    At = s.Act.At,
                    Who = s.Act.ActorName,
                    What = s.Step.ToString(),
                    More = s.Mark.ToString(),
                    Reason = null,
                    Number = null,
                }))
            .Concat(db.Parts.Where(p => p.SpecimenId == specimen)
                .SelectMany(p => p.Clearances)
                .Select(c => new Line
                {
                    Kind = Kind.Cleared,
                    At = c.Act.At,
                    Who = c.Act.ActorName,
                    What = c.By.ToString(),
                    More = db.Parcels.Where(q => q.Id == c.ParcelId).Select(q => q.Tag).FirstOrDefault(),
                    Reason = c.Act.Reason,
                    Number = db.Loads.Where(l => l.Id == c.LoadId).Select(l => (int?)l.Number).FirstOrDefault(),
                }))
            .Concat(db.Parts.Where(p => p.SpecimenId == specimen)
                .SelectMany(p => p.Places)
                .Select(e => new Line
                {
                    Kind = Kind.Moved,
                    At = e.Act.At,
                    Who = e.Act.ActorName,
                    What = db.Places.Where(place => place.Id == e.PlaceId).Select(place => place.Name).First(),
                    More = e.TakenBackActId == null ? null : "taken back",
                    Reason = e.Act.Reason,
                    Number = e.CrossedOutside ? 1 : null,
                }))
            .Concat(db.Gatherings.Where(g => g.Id == gathering)
                .SelectMany(g => g.Protections)
                .Select(p => new Line
                {
                    Kind = Kind.Protection,
                    At = p.Act.At,
                    Who = p.Act.ActorName,
                    What = p.Category.ToString(),
                    More = null,
                    Reason = null,
                    Number = null,
                }))
            .Concat(db.Determinations.Where(d => d.SpecimenId == specimen && d.Kind != DeterminationKind.Listed)
                .Select(d => new Line
                {
                    Kind = Kind.Named,
                    At = d.Act.At,
                    Who = d.Act.ActorName,
                    What = d.Name,
                    More = d.IdentifiedBy,
                    Reason = null,
                    Number = d.Kind == DeterminationKind.Rejection ? 1 : null,
                }))
            .Concat(db.Specimens.Where(s => s.Id == specimen)
                .SelectMany(s => s.Choices)
                .Where(c => c.Counts)
                .Join(db.Determinations, c => c.DeterminationId, d => d.Id, (c, d) => new Line
                {
                    Kind = Kind.Chosen,
                    At = c.Act.At,
                    Who = c.Act.ActorName,
                    What = d.Name,
                    More = null,
                    Reason = null,
                    Number = null,
                }))
            .Concat(db.Specimens.Where(s => s.Id == specimen)
                .SelectMany(s => s.Filings)
                .Select(f => new Line
                {
                    Kind = Kind.Filed,
                    At = f.Act.At,
                    Who = f.Act.ActorName,
                    What = f.Name,
                    More = null,
                    Reason = null,
                    Number = null,
                }))
            .TagWith(AskedOften.Tag));

    /// <summary>The lines of a specimen and of its gathering, in no order.</summary>
    public async Task<IReadOnlyList<TrailEntry>> OfAsync(
        AccessionDb db, long specimenId, long gatheringId, CancellationToken cancellation)
    {
        var lines = await _lines(db, specimenId, gatheringId).ToListAsync(cancellation);
        return lines.ConvertAll(line => new TrailEntry(line.At, Said(line), line.Who));
    }

    private static string Said(Line line) => line.Kind switch
    {
        Kind.Custody => "In the hands of " + line.What,
        Kind.Step => Said(Enum.Parse<Step>(line.What), Enum.Parse<StepMark>(line.More!)),
        Kind.Cleared => TreatmentWords.Of(Enum.Parse<ClearedBy>(line.What))
            + (line.Number is { } load ? $", load {load}" : "")
            + (line.More is { } parcel ? $", in parcel {parcel}" : "")
            + Why(line),
        Kind.Moved => $"Put in {line.What}"
            + (line.More is not null ? "; taken back, it never went there"
                : line.Number is not null ? "; it was outside: to be treated again" : "")
            + Why(line),
        Kind.Protection => line.What == nameof(SensitivityCategory.NotSensitive)
            ? "Protection of the place lifted"
            : "Place protected",
        Kind.Named => $"{(line.Number is null ? "Named" : "Said not to be")} {line.What} by {line.More}",
        Kind.Chosen => $"{line.What} became the current name",
        _ => $"Filed as {line.What}",
    };

    private static string Said(Step step, StepMark mark) => (step, mark) switch
    {
        (Step.Numbered, _) => "Number scanned back from the sheet",
        (_, StepMark.Done) => TreatmentWords.Of(step),
        (_, StepMark.Waived) => $"{TreatmentWords.Of(step)}: need not be done",
        _ => $"{TreatmentWords.Of(step)}: taken back",
    };

    private static string Why(Line line) => line.Reason is null ? "" : $": {line.Reason}";
}
