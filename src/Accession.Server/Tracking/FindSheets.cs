using Accession.Core.Gatherings;
using Accession.Core.Localities;
using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Core.Specimens;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Databases;
using Accession.Storage.Finding;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// What one box and a few filters mean: a catalog number, a collector with a number or a run of numbers, or any words
/// of name, place, date and collector. It finds only what somebody may see.
/// </summary>
public sealed class FindSheets(AccessionDb db, SeenSheets seen, TypedNumbers typed, MendedNames mending)
{
    /// <summary>A run of collector numbers is never longer than this.</summary>
    public const int LongestRun = 500;

    private const int MostCounted = 1_000;
    private const int ShortestWhole = 4;

    /// <summary>What somebody asks for.</summary>
    /// <param name="Text">What stands in the one box; null for nothing.</param>
    public sealed record Asked(string? Text)
    {
        public static Asked Nothing { get; } = new((string?)null);

        public string? Taxon { get; init; }

        public string? Collector { get; init; }

        public string? County { get; init; }

        public string? Accession { get; init; }

        public int? FromYear { get; init; }

        public int? ToYear { get; init; }

        /// <summary>The step that a part waits for next.</summary>
        public Step? Waits { get; init; }

        /// <summary>The step that a part has behind it.</summary>
        public Step? Done { get; init; }

        /// <summary>
        /// The step that a part still lacks, whatever it waits for before; of holdings taken over nobody asks.
        /// </summary>
        public Step? Lacks { get; init; }

        /// <summary>Who holds it, to the letter.</summary>
        public string? Holder { get; init; }

        /// <summary>Where it stands: the beginning of a place's name.</summary>
        public string? Place { get; init; }

        public bool HasFilters => this with { Text = null } != Nothing;

        public bool IsEmpty => this == Nothing;
    }

    /// <summary>What was understood.</summary>
    /// <param name="Certain">The one number that is meant, where the text is the number of a sheet.</param>
    /// <param name="Sheets">The sheets, in no order yet.</param>
    /// <param name="Words">
    /// The words, where the newest of all sheets that bear them are asked for; otherwise null.
    /// </param>
    private sealed record Meant(string? Certain, IQueryable<Specimen> Sheets, IReadOnlyList<string>? Words);

    /// <summary>A page of keys, the newest first.</summary>
    /// <param name="Certain">The one number that is meant; the rest is then empty.</param>
    /// <param name="Ids">The keys of the sheets of the page.</param>
    /// <param name="Count">How many there are in all; null when there are more than anybody counts.</param>
    public sealed record Page(string? Certain, IReadOnlyList<long> Ids, int? Count)
    {
        /// <summary>
        /// Nothing answers to what was typed: the texts near it to which something does. What was found answers to the
        /// first of them.
        /// </summary>
        public IReadOnlyList<string> Near { get; init; } = [];
    }

    /// <summary>The same; where nothing answers, plant names with a slip are mended.</summary>
    public async Task<Page> RunNearAsync(
        Asked asked, Actor who, long? before, int most, CancellationToken cancellation)
    {
        var found = await RunAsync(asked, who, before, most, cancellation);
        if (found is not { Certain: null, Count: 0 } || asked.Text is not { } text)
        {
            return found;
        }

        List<string> near = [];
        foreach (var mended in await mending.OfAsync(text, cancellation))
        {
            // Only what this person may see is said to be there.
            var one = asked with { Text = mended };
            if ((await RunAsync(one, who, null, 1, cancellation)).Ids.Count > 0)
            {
                near.Add(mended);
            }
        }

        return near.Count == 0
            ? found
            : await RunAsync(asked with { Text = near[0] }, who, before, most, cancellation) with { Near = near };
    }

    public async Task<Page> RunAsync(
        Asked asked, Actor who, long? before, int most, CancellationToken cancellation)
    {
        var meant = await UnderstandAsync(asked, who, cancellation);
        if (meant.Certain is not null)
        {
            return new(meant.Certain, [], null);
        }

        if (meant.Words is { } words)
        {
            return await NewestAsync(words, before, most, cancellation);
        }

        var ids = await meant.Sheets.Where(s => before == null || s.Id < before).OrderByDescending(s => s.Id)
            .Select(s => s.Id).Take(most).ToListAsync(cancellation);
        return Counted(ids, before is null && ids.Count < most
            ? ids.Count
            : await meant.Sheets.OrderByDescending(s => s.Id).Take(MostCounted + 1).CountAsync(cancellation));
    }

    // The common case takes the newest from the index and looks at nothing else; the first page is counted in one go.
    private async Task<Page> NewestAsync(
        IReadOnlyList<string> words, long? before, int most, CancellationToken cancellation)
    {
        var finding = db.Kind.Finding;
        if (before is not null)
        {
            var question = await AskAsync(words, cancellation);
            return Counted(
                await finding.NewestAsync(db, question, before, most, cancellation),
                await finding.CountAsync(db, question, MostCounted + 1, cancellation));
        }

        var counted = Math.Max(most, MostCounted + 1);
        var all = IsTakenWhole(words)
            ? await finding.NewestAsync(db, finding.Whole(words), before, counted, cancellation)
            : [];
        if (all.Count == 0)
        {
            all = await finding.NewestAsync(db, finding.Begun(words), before, counted, cancellation);
        }

        return Counted([.. all.Take(most)], all.Count);
    }

    private static Page Counted(IReadOnlyList<long> ids, int counted) =>
        new(null, ids, counted > MostCounted ? null : counted);

    private async Task<Meant> UnderstandAsync(Asked asked, Actor who, CancellationToken cancellation)
    {
        var sheets = InHand(Filtered(seen.Of(who), asked), asked, who);
        if (asked.Text is not { } text)
        {
            return new(null, sheets, null);
        }

        var number = await typed.FindAsync(text, seen.Of(who), cancellation);
        if (number.Certain is not null && !asked.HasFilters)
        {
            return new(number.Certain, sheets, null);
        }

        var byNumber = ByNumber(text);
        var numbered = sheets.Where(s => number.Possible.Contains(s.CatalogNumber));
        if (byNumber is not null)
        {
            var gatherings = byNumber.Select(g => g.Id);
            numbered = number.Possible.Count == 0
                ? sheets.Where(s => gatherings.Contains(s.GatheringId))
                : sheets.Where(s => number.Possible.Contains(s.CatalogNumber)
                    || gatherings.Contains(s.GatheringId));
        }

        if ((byNumber is not null || number.Possible.Count > 0) && await numbered.AnyAsync(cancellation))
        {
            return new(null, numbered, null);
        }

        var words = FindText.WordsAsked(text);
        if (words.Count == 0)
        {
            return new(null, sheets.Where(_ => false), null);
        }

        if (who.SeesWholeRegister && !asked.HasFilters)
        {
            return new(null, sheets, words);
        }

        var bearing = db.Kind.Finding.Bearing(db, await AskAsync(words, cancellation));
        return new(null, sheets.Where(s => bearing.Contains(s.Id)), null);
    }

    // Of all words that begin alike the index has to read all sheets before it gives the newest; so the last word is
    // taken as it stands where sheets bear it, unless it is so short that somebody will have stopped early.
    private static bool IsTakenWhole(IReadOnlyList<string> words) => words[^1].Length >= ShortestWhole;

    private async Task<FindQuestion> AskAsync(IReadOnlyList<string> words, CancellationToken cancellation)
    {
        var whole = db.Kind.Finding.Whole(words);
        return IsTakenWhole(words)
            && await db.Kind.Finding.NewestAsync(db, whole, before: null, most: 1, cancellation) is [_]
            ? whole
            : db.Kind.Finding.Begun(words);
    }

    private IQueryable<Specimen> Filtered(IQueryable<Specimen> sheets, Asked asked)
    {
        if (asked.Taxon is { } taxon)
        {
            // The words are looked up, the name that counts decides: an older opinion is no find here.
            var words = FindText.WordsAsked(taxon) is { Count: > 0 } some ? some : ["nothing"];
            var bearing = db.Kind.Finding.Bearing(db, db.Kind.Finding.Begun(words));
            sheets = sheets.Where(s => s.CurrentName.StartsWith(taxon) && bearing.Contains(s.Id));
        }

        if (asked.Collector is { } collector)
        {
            var key = Collectors.FamilyKeyOf(collector);
            sheets = sheets.Where(s => s.Gathering.Notes.CollectorKey == key);
        }

        if (asked.County is { } county)
        {
            var key = CountyName.Read(county) is { IsRead: true } read ? read.Value.Key : null;
            sheets = key is null
                ? sheets.Where(s => s.Gathering.Place.County == county
                    || s.Gathering.Place.County == county + " County")
                : sheets.Where(s => s.Gathering.CountyKey == key);
        }

        if (asked.Accession is { } accession)
        {
            var lots = db.Accessions.Where(lot => lot.Number == accession).Select(lot => lot.Id);
            sheets = sheets.Where(s => lots.Contains(s.Gathering.AccessionId));
        }

        if (asked.FromYear is { } from)
        {
            sheets = sheets.Where(s => s.Gathering.Notes.Year >= from);
        }

        return asked.ToYear is { } to ? sheets.Where(s => s.Gathering.Notes.Year <= to) : sheets;
    }

    // Steps, places and who holds a sheet are the house's own business: nobody else asks by them.
    private IQueryable<Specimen> InHand(IQueryable<Specimen> sheets, Asked asked, Actor who)
    {
        if (!who.WorksHere)
        {
            return sheets;
        }

        if (asked.Waits is { } waits)
        {
            var waiting = db.Parts.Where(p => p.NextStep == waits).Select(p => p.SpecimenId);
            sheets = sheets.Where(s => waiting.Contains(s.Id));
        }

        if (asked.Done is { } done)
        {
            sheets = sheets.Where(s => s.Parts.Any(p => p.Steps.Any(e => e.Step == done && e.Mark == StepMark.Done
                && !p.Steps.Any(later => later.Step == done && later.Id > e.Id))));
        }

        if (asked.Lacks is { } lacks)
        {
            sheets = sheets.Where(s => s.Parts.Any(p => !p.IsFromBefore && !p.Steps.Any(e => e.Step == lacks
                && e.Mark != StepMark.NeededAgain && !p.Steps.Any(later => later.Step == lacks && later.Id > e.Id))));
        }

        if (asked.Holder is { } holder)
        {
            var held = db.Parts.Where(p => p.Holder == holder).Select(p => p.SpecimenId);
            sheets = sheets.Where(s => held.Contains(s.Id));
        }

        if (asked.Place is { } place)
        {
            // The name of a cabinet begins with that of its room, and that with its building.
            var standing = db.Parts
                .Where(p => db.Places.Any(one => one.Id == p.PlaceId && one.Name.StartsWith(place)))
                .Select(p => p.SpecimenId);
            sheets = sheets.Where(s => standing.Contains(s.Id));
        }

        return sheets;
    }

    // "Ashgrove 1204", "Ashgrove 1-14", "1204": the last word is a number, or a run of them. Null where it is not.
    private IQueryable<Gathering>? ByNumber(string text)
    {
        var words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var keys = RunOf(words[^1]) ?? KeyOf(words[^1]);
        if (keys is null)
        {
            return null;
        }

        if (words.Length == 1)
        {
            return db.Gatherings.Where(g => keys.Contains(g.Notes.NumberKey));
        }

        var family = Collectors.FamilyKeyOf(string.Join(' ', words[..^1]));
        return family.Length == 0
            ? null
            : db.Gatherings.Where(g => g.Notes.CollectorKey == family && keys.Contains(g.Notes.NumberKey));
    }

    private static List<string>? KeyOf(string word) =>
        CollectorNumber.Read(word) is { IsRead: true, Value.IsWithoutNumber: false } read ? [read.Value.Key] : null;

    private static List<string>? RunOf(string word)
    {
        var ends = word.Split('-', '\u2013');
        return ends.Length == 2
            && int.TryParse(ends[0], null, out var first) && int.TryParse(ends[1], null, out var last)
            && first > 0 && last > first && last - first < LongestRun
            ? [
                // A run may be one number too, as of a year: "2026-14".
                .. KeyOf(word) ?? [],
                .. Enumerable.Range(first, last - first + 1).SelectMany(n => KeyOf($"{n}") ?? []),
            ]
            : null;
    }
}
