using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>
/// One physical piece of a specimen. Custody and steps attach to it. Most specimens have one, whose code is the bare
/// catalog number. Untreated until the program has seen it treated: nothing here lets it into the collection room.
/// </summary>
public sealed class Part
{
    private readonly List<CustodyEntry> _custody = [];
    private readonly List<StepEntry> _steps = [];

    private Part()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The specimen it is a piece of.</summary>
    public long SpecimenId { get; private set; }

    /// <summary>What is scanned from it.</summary>
    public string Code { get; private set; } = "";

    /// <summary>Which of those it is from which this code is scanned: as <see cref="Specimen.Repeat"/>.</summary>
    public int Repeat { get; private set; }

    /// <summary>
    /// Whether it was in the collection before its record: it was taken over, and no step is asked of it.
    /// </summary>
    public bool IsFromBefore { get; private set; }

    /// <summary>Who has it now; computed from the custody entries.</summary>
    public string Holder { get; private set; } = "";

    /// <summary>Whether its number was scanned back against its record; computed from the steps.</summary>
    public bool IsNumbered { get; private set; }

    /// <summary>Who had it, since when, the oldest first.</summary>
    public IReadOnlyList<CustodyEntry> Custody => _custody;

    /// <summary>What was done to it, the oldest first.</summary>
    public IReadOnlyList<StepEntry> Steps => _steps;

    /// <summary>Renewed by every verb, so that two people who change it at once cannot both save.</summary>
    public Guid Version { get; private set; }

    internal static Part Receive(string code, string holder, bool proven, Act act)
    {
        var part = new Part { Code = code };
        part._custody.Add(new CustodyEntry(act, holder));
        part.Holder = holder;
        if (proven)
        {
            part.ScanBack(act);
        }

        part.Version = Guid.NewGuid();
        return part;
    }

    internal void WasHereBefore(int repeat) => (IsFromBefore, Repeat) = (true, repeat);

    /// <summary>Proves that the number on the sheet is the number on record: the step "numbered" is done.</summary>
    /// <param name="act">The act of scanning.</param>
    /// <returns>A conflict when it was proven before.</returns>
    public Refusal? ScanBack(Act act)
    {
        if (IsNumbered)
        {
            return new(RefusalKind.Conflict, $"{Code} was scanned back already.");
        }

        _steps.Add(new StepEntry(act, Step.Numbered));
        IsNumbered = true;
        Version = Guid.NewGuid();
        return null;
    }
}
