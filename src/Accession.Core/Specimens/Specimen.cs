using Accession.Core.Determinations;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;

namespace Accession.Core.Specimens;

/// <summary>
/// One numbered thing with one name history: a sheet, packet, jar or box, of exactly one gathering.
/// It begins when it is numbered.
/// </summary>
public sealed partial class Specimen
{
    private readonly List<Part> _parts = [];
    private readonly List<Determination> _determinations = [];

    private Specimen()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>
    /// Its permanent number, which is also its barcode. Never changed, never given to another; but a sheet that was
    /// taken over keeps the number it bears, to the letter, though another may bear it too.
    /// </summary>
    public string CatalogNumber { get; private set; } = "";

    /// <summary>The series the number came from, or follows.</summary>
    public long SeriesId { get; private set; }

    /// <summary>The running number in that series.</summary>
    public long Number { get; private set; }

    /// <summary>
    /// Which of the sheets it is that bear this number of its series: 0 for the only or the first one, then 1, 2 and so
    /// on as they came. Never changed: the sheet's address is made of it.
    /// </summary>
    public int Repeat { get; private set; }

    /// <summary>
    /// A name that is the same wherever the record travels: a UUID as a URN, or that under which it was published
    /// before.
    /// </summary>
    public string OccurrenceId { get; private set; } = "";

    /// <summary>The gathering it is of.</summary>
    public long GatheringId { get; private set; }

    /// <summary>The gathering it is of.</summary>
    public Gathering Gathering { get; private set; } = null!;

    /// <summary>The act that numbered it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that numbered it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Its pieces; nearly always one.</summary>
    public IReadOnlyList<Part> Parts => _parts;

    /// <summary>Every name it was ever given, in the order in which they came on record.</summary>
    public IReadOnlyList<Determination> Determinations => _determinations;

    /// <summary>The name that counts now; computed from the determinations. Empty when it was never named.</summary>
    public string CurrentName { get; private set; } = "";

    /// <summary>The words by which it is found; see <see cref="Specimens.FindText"/>.</summary>
    public string FindText { get; private set; } = "";

    /// <summary>Renewed by every verb, so that two people who change it at once cannot both save.</summary>
    public Guid Version { get; private set; }

    /// <summary>A number in a series, ready to go on a sheet.</summary>
    /// <param name="SeriesId">The series.</param>
    /// <param name="Number">The running number.</param>
    /// <param name="Written">The number in the form that is stored and printed.</param>
    public sealed record SheetNumber(long SeriesId, long Number, string Written);

    /// <summary>A number that a sheet bears already.</summary>
    /// <param name="Written">The number to the letter.</param>
    /// <param name="SeriesId">The series it follows, or that of the numbers from before.</param>
    /// <param name="Number">The running number in that series.</param>
    /// <param name="Repeat">How many sheets of the register bear it before this one.</param>
    public sealed record Borne(string Written, long SeriesId, long Number, int Repeat);

    /// <summary>Takes a sheet over with the number it bears. No step is asked of it: it was here before.</summary>
    /// <param name="number">The number it bears.</param>
    /// <param name="gathering">The gathering it is of.</param>
    /// <param name="holder">Who holds it: the herbarium itself.</param>
    /// <param name="identifier">Under which its record was published before; empty when it was not.</param>
    /// <param name="act">The act of taking over.</param>
    /// <param name="history">The identifications that came with its record in an archive.</param>
    /// <returns>The specimen, or why the gathering has no sheet left.</returns>
    public static Outcome<Specimen> TakeOver(
        Borne number, Gathering gathering, string holder, string identifier, Act act,
        IReadOnlyList<ListedIdentification>? history = null)
    {
        var specimen = NumberSheet(
            new(number.SeriesId, number.Number, number.Written), gathering, holder, proven: false, null, null, act,
            history);
        if (!specimen.IsRefused)
        {
            specimen.Value.Repeat = number.Repeat;
            specimen.Value.OccurrenceId = identifier.Length > 0 ? identifier : specimen.Value.OccurrenceId;
            specimen.Value._parts[0].WasHereBefore(number.Repeat);
        }

        return specimen;
    }

    /// <summary>Numbers a sheet in hand.</summary>
    /// <param name="number">The number that goes on it.</param>
    /// <param name="gathering">The gathering it is of.</param>
    /// <param name="holder">Who holds it from now on: the herbarium itself.</param>
    /// <param name="proven">
    /// Whether the code was scanned from the sheet itself, which proves it as well; a number that was only issued has
    /// still to be scanned back.
    /// </param>
    /// <param name="plan">The step plan that its part follows; null when no step is asked of it.</param>
    /// <param name="parcel">The parcel it came in, whose clearance it inherits; null when that is not known.</param>
    /// <param name="act">The act of numbering.</param>
    /// <param name="history">The identifications that came with its record in an archive.</param>
    /// <returns>The specimen, or why the gathering has no sheet left to number.</returns>
    public static Outcome<Specimen> NumberSheet(
        SheetNumber number, Gathering gathering, string holder, bool proven, StepPlan? plan, Parcel? parcel, Act act,
        IReadOnlyList<ListedIdentification>? history = null)
    {
        if (gathering.NumberSheet() is { } refusal)
        {
            return refusal;
        }

        var specimen = new Specimen
        {
            CatalogNumber = number.Written,
            SeriesId = number.SeriesId,
            Number = number.Number,
            OccurrenceId = LastingIdentifier.New(),
            Gathering = gathering,
            Act = act,
        };
        specimen._parts.Add(Part.Receive(number.Written, holder, proven, plan, parcel, act));
        specimen.TakeListedName(gathering.Notes, act);
        specimen.TakeHistory(history ?? [], act);
        specimen.TellWords();
        specimen.Version = Guid.NewGuid();
        return specimen;
    }

    /// <summary>
    /// Tells the words by which it is found anew, after what everyone may know of its gathering was changed.
    /// </summary>
    public void TellWords()
    {
        FindText = Specimens.FindText.Of(
            CatalogNumber,
            // A name that was only denied finds nothing.
            _determinations.Where(d => d.Kind != DeterminationKind.Rejection)
                .OrderBy(d => d.Id == 0).ThenBy(d => d.Id).Select(d => d.Name),
            Gathering);
        Version = Guid.NewGuid();
    }

    // The name on the list is the first opinion in the history, by whom and when the list says.
    private void TakeListedName(FieldNotes notes, Act act)
    {
        if (notes.NameVerbatim.Length > 0)
        {
            Determine(Determination.FromList(notes, act));
        }
    }

    // What the record itself says counts, whatever was said of it earlier or later: in Darwin Core the name in the core
    // is the current one. A record without a name leaves it to its rows: the one that says so, or is dated last.
    private void TakeHistory(IReadOnlyList<ListedIdentification> history, Act act)
    {
        List<ListedIdentification> named = [.. history.Where(listed => listed.Name.Length > 0)];
        if (_determinations is [var listed])
        {
            if (named.Where(listed.IsAlso).ToList() is [var same])
            {
                listed.CompleteFrom(same);
                named.Remove(same);
            }

            _determinations.AddRange(named.Select(one => Determination.FromHistory(one, act)));
        }
        else if (named.OrderByDescending(one => one.IsAccepted)
            .ThenByDescending(one => one.DateIdentified, StringComparer.Ordinal).FirstOrDefault() is { } last)
        {
            Determine(Determination.FromHistory(last, act));
            _determinations.AddRange(
                named.Where(one => one != last).Select(one => Determination.FromHistory(one, act)));
        }
    }

    private void Determine(Determination determination)
    {
        _determinations.Add(determination);
        CurrentName = determination.Name;
    }
}
