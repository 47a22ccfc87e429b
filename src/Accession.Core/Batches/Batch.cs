using Accession.Core.Accessions;
using Accession.Core.Gatherings;
using Accession.Core.Outcomes;

namespace Accession.Core.Batches;

/// <summary>
/// The list of vouchers from one source: not ours yet. The same list may be sent again, re-sorted or corrected;
/// each time it is another <see cref="ReceivedList"/> of the same batch.
/// </summary>
public sealed class Batch
{
    private readonly List<ReceivedList> _lists = [];

    private Batch()
    {
    }

    /// <summary>The key in the database, and the number in the batch's address.</summary>
    public long Id { get; private set; }

    /// <summary>Who sent it.</summary>
    public long SourceId { get; private set; }

    /// <summary>Who sent it.</summary>
    public Source Source { get; private set; } = null!;

    /// <summary>The act that received the first list.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that received the first list.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Which heading means which field, as JSON; empty until the first list was read.</summary>
    public string Match { get; private set; } = "{}";

    /// <summary>Whether day or month comes first in dates written in figures; settled once for the list.</summary>
    public DayMonthOrder DayMonthOrder { get; private set; }

    /// <summary>
    /// Whether its sheets bear their catalog numbers already and keep them: holdings of our own from before, or of a
    /// herbarium that is taken over. They are then taken over and not numbered.
    /// </summary>
    public bool CarriesNumbers { get; private set; }

    /// <summary>The batch that this list turned out to belong to; null for a batch of its own.</summary>
    public long? JoinedToBatchId { get; private set; }

    /// <summary>
    /// An earlier batch of the same source that this may be the list of: too much alike to be silent, too little to be
    /// sure. Null when there is none.
    /// </summary>
    public long? ResemblesBatchId { get; private set; }

    /// <summary>How many of its rows stand in that batch to the letter.</summary>
    public int RowsToTheLetter { get; private set; }

    /// <summary>How many of its rows stand in that batch, to the letter or under collector and number alone.</summary>
    public int RowsAlike { get; private set; }

    /// <summary>Whether a curator said that it is another list than that batch's.</summary>
    public bool IsToldApart { get; private set; }

    /// <summary>Whether a curator still has to say if it is that batch's list: until then nothing goes in.</summary>
    public bool AsksWhichList => ResemblesBatchId is not null && !IsToldApart && JoinedToBatchId is null;

    /// <summary>The act that closed it; null while it is open. Computed from its closings.</summary>
    public long? ClosedActId { get; private set; }

    /// <summary>Renewed by every verb.</summary>
    public Guid Version { get; private set; }

    /// <summary>The lists that came for this batch, the oldest first.</summary>
    public IReadOnlyList<ReceivedList> Lists => _lists;

    /// <summary>A batch whose first list is at the door.</summary>
    /// <param name="source">Who sent it.</param>
    /// <param name="act">The act of receiving.</param>
    /// <param name="carriesNumbers">Whether its sheets bear the numbers that they keep.</param>
    public static Batch From(Source source, Act act, bool carriesNumbers = false) => new()
    {
        Source = source,
        Act = act,
        CarriesNumbers = carriesNumbers,
        Match = source.RememberedMatch,
        Version = Guid.NewGuid(),
    };

    /// <summary>A batch whose list is typed here from the labels of a pile, because none came with it.</summary>
    /// <param name="source">Who sent the pile.</param>
    /// <param name="headings">The headings under which is typed, as a JSON list.</param>
    /// <param name="match">What they mean, as JSON.</param>
    /// <param name="act">The act of beginning.</param>
    public static Batch TypedHere(Source source, string headings, string match, Act act)
    {
        var batch = From(source, act);
        batch.Match = match;
        batch._lists.Add(ReceivedList.Typed(act, headings));
        return batch;
    }

    /// <summary>The list that is typed here; null where files came.</summary>
    public ReceivedList? TypedList => _lists.Find(list => list.IsTyped);

    /// <summary>Receives a list: the first, or the same list again, re-sorted or corrected.</summary>
    /// <param name="file">The file as it was kept.</param>
    /// <param name="act">The act of receiving.</param>
    public ReceivedList Receive(ReceivedList.KeptFile file, Act act)
    {
        var list = ReceivedList.Of(file, act);
        _lists.Add(list);
        Version = Guid.NewGuid();
        return list;
    }

    /// <summary>Settles which heading means which field.</summary>
    /// <param name="json">Heading to field, as JSON.</param>
    public void SettleMatch(string json)
    {
        Match = json;
        Version = Guid.NewGuid();
    }

    /// <summary>Settles whether day or month comes first, for every date of the list written in figures.</summary>
    /// <param name="order">The settled order.</param>
    public Refusal? SettleOrder(DayMonthOrder order)
    {
        if (order == DayMonthOrder.Unsettled)
        {
            return new(RefusalKind.Invalid, "Choose whether the day or the month comes first in this list.");
        }

        DayMonthOrder = order;
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Says whether its sheets bear the numbers that they keep, or get theirs here.</summary>
    /// <param name="carriesNumbers">Whether they bear them.</param>
    /// <param name="isInRegister">Whether any row of it is in the register: then it is too late.</param>
    public Refusal? SettleNumbers(bool carriesNumbers, bool isInRegister)
    {
        if (isInRegister)
        {
            return new(RefusalKind.Conflict,
                "Rows of this batch are in the register already, so the others go in the same way.");
        }

        if (CarriesNumbers == carriesNumbers)
        {
            return new(RefusalKind.Conflict, "That was said already. Look at the batch again.");
        }

        CarriesNumbers = carriesNumbers;
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>
    /// Notes that rows of the batch are settled or taken in. Of two people who do so at once, one is told to look
    /// again.
    /// </summary>
    public void ChangeRows() => Version = Guid.NewGuid();

    /// <summary>Notes that an earlier batch is much like this one, so that a curator says which list it is.</summary>
    /// <param name="earlier">The earlier batch.</param>
    /// <param name="toTheLetter">How many rows stand there to the letter.</param>
    /// <param name="alike">How many stand there to the letter or under collector and number; at least as many.</param>
    public void Resemble(Batch earlier, int toTheLetter, int alike)
    {
        (ResemblesBatchId, RowsToTheLetter, RowsAlike) = (earlier.Id, toTheLetter, alike);
        Version = Guid.NewGuid();
    }

    /// <summary>Says that it is another list than the batch's that it resembles.</summary>
    public Refusal? TellApart()
    {
        if (!AsksWhichList)
        {
            return new(RefusalKind.Conflict, "That was answered already. Look at the batch again.");
        }

        IsToldApart = true;
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Closes it when the list was checked against the sheets, or says why it cannot be closed.</summary>
    /// <param name="check">The check.</param>
    /// <param name="day">The day at the institution.</param>
    /// <param name="act">The act: who, when, and what is noted. It is stored already.</param>
    /// <returns>The entry to keep, or every reason against it.</returns>
    public Outcome<BatchClosing> Close(TransmittalCheck check, DateOnly day, Act act)
    {
        ArgumentNullException.ThrowIfNull(check);
        if (ClosedActId is not null)
        {
            return new Refusal(RefusalKind.Conflict, $"Batch {Id} is closed already. Look at it again.");
        }

        if (check.WhyNot(act.Reason).ToList() is { Count: > 0 } refusals)
        {
            return refusals;
        }

        ClosedActId = act.Id;
        Version = Guid.NewGuid();
        return BatchClosing.Closed(Id, check, day, act);
    }

    /// <summary>Opens it again, with the reason of the act.</summary>
    /// <param name="day">The day at the institution.</param>
    /// <param name="act">The act: who, when and why.</param>
    /// <returns>The entry to keep, or why it cannot be opened.</returns>
    public Outcome<BatchClosing> Reopen(DateOnly day, Act act)
    {
        if (ClosedActId is null)
        {
            return new Refusal(RefusalKind.Conflict, $"Batch {Id} is open. Look at it again.");
        }

        if (act.Reason is null)
        {
            return new Refusal(RefusalKind.Invalid, "Write why the batch is opened again.");
        }

        ClosedActId = null;
        Version = Guid.NewGuid();
        return BatchClosing.Reopened(Id, day, act);
    }

    /// <summary>Gives the list over to an earlier batch, when reading showed that it is that list again.</summary>
    /// <param name="earlier">The batch it belongs to.</param>
    public void JoinTo(Batch earlier)
    {
        foreach (var list in _lists)
        {
            list.MoveTo(earlier);
        }

        JoinedToBatchId = earlier.Id;
        Version = Guid.NewGuid();
        earlier.Version = Guid.NewGuid();
    }
}
