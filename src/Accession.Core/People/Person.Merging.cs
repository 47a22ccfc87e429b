using Accession.Core.Outcomes;

namespace Accession.Core.People;

// What one person gives up is saved before the other gets it: no spelling and no account is two persons' at any moment.
public sealed partial class Person
{
    private readonly List<PersonMerge> _merges = [];

    /// <summary>Every time this person was said to be another, the oldest first.</summary>
    public IReadOnlyList<PersonMerge> Merges => _merges;

    /// <summary>The person that this one was merged into; null while it stands by itself.</summary>
    public long? MergedIntoId { get; private set; }

    /// <summary>The spellings that hold now, as they are written.</summary>
    public IEnumerable<string> Written => _spellings.Where(s => s.EndedAct is null).Select(s => s.Written);

    /// <summary>
    /// Merges this person into another: spellings and account are given up for the other to receive, and the other's
    /// years become those of both. Everything can be taken back.
    /// </summary>
    /// <param name="into">The person that both are.</param>
    /// <param name="act">The act: who, when, and how the curator knows.</param>
    public Outcome<HandedOver> MergeInto(Person into, Act act)
    {
        ArgumentNullException.ThrowIfNull(into);
        ArgumentNullException.ThrowIfNull(act);
        if (act.Reason is null)
        {
            return new Refusal(RefusalKind.Invalid, "Write how you know that they are one person.");
        }

        if (into == this || into.MergedIntoId is not null || MergedIntoId is not null)
        {
            return new Refusal(RefusalKind.Conflict, "Choose another collector, one who is not merged into somebody.");
        }

        if (Tie is not null && into.Tie is not null)
        {
            return new Refusal(RefusalKind.Conflict,
                $"{Name} and {into.Name} have an account each. Take one of them away first: one person has one.");
        }

        _merges.Add(new PersonMerge(into.Id, act));
        MergedIntoId = into.Id;
        if (into.Years.With(Years) is var years && years != into.Years)
        {
            into.State(years, act);
        }

        return GiveUp([.. _spellings.Where(s => s.EndedAct is null)], Tie, act);
    }

    /// <summary>
    /// Takes back that this person is another: the other gives up what went over and still stands there, and its years
    /// are again what they were if nobody said otherwise since.
    /// </summary>
    /// <param name="from">The person that this one was merged into.</param>
    /// <param name="act">The act: who, when, and why.</param>
    public Outcome<HandedOver> PartFrom(Person from, Act act)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(act);
        if (MergedIntoId != from.Id || _merges.LastOrDefault(m => m.EndedAct is null) is not { } merge)
        {
            return new Refusal(RefusalKind.Conflict, $"{Name} is not merged into {from.Name} any more; look again.");
        }

        if (from.MergedIntoId is not null)
        {
            return new Refusal(RefusalKind.Conflict,
                $"{from.Name} was merged into somebody else since. Take that back first.");
        }

        if (act.Reason is null)
        {
            return new Refusal(RefusalKind.Invalid, "Write why they are two people after all.");
        }

        merge.End(act);
        MergedIntoId = null;
        Version = Guid.NewGuid();
        if (from._yearsStated is [.., var last] && last.ActId == merge.ActId)
        {
            var before = from._yearsStated.Count > 1 ? from._yearsStated[^2] : null;
            from.State(new(before?.FirstYear, before?.LastYear), act);
        }

        // By what was given up, because it may have gone on and come back since. What both had stays with both.
        var own = _spellings.Where(s => s.EndedActId == merge.ActId).Select(s => s.Written).ToList();
        var both = own.Where(written => from.HadBefore(written, merge.ActId)).ToList();
        var wentOver = from._spellings
            .Where(s => s.EndedAct is null && own.Contains(s.Written) && !both.Contains(s.Written)).ToList();
        var account = _ties.LastOrDefault(t => t.EndedActId == merge.ActId)?.AccountId;
        var goods = from.GiveUp(wentOver, account is not null && from.Tie?.AccountId == account ? from.Tie : null, act);
        return goods with { Spellings = [.. goods.Spellings, .. both.Where(from.Written.Contains)] };
    }

    /// <summary>Gives up spellings for another person, newly put on record: they were two people.</summary>
    /// <param name="written">The spellings that are the other's.</param>
    /// <param name="act">The act: who, when, and how the curator knows.</param>
    public Outcome<HandedOver> SplitOff(IReadOnlyCollection<string> written, Act act)
    {
        ArgumentNullException.ThrowIfNull(act);
        var moved = _spellings.Where(s => s.EndedAct is null && written.Contains(s.Written)).ToList();
        if (moved.Count == 0 || moved.Count < written.Count)
        {
            return new Refusal(RefusalKind.Invalid, $"Choose which of the spellings of {Name} are somebody else.");
        }

        if (moved.Count == Written.Count())
        {
            return new Refusal(RefusalKind.Invalid,
                $"Nothing would be left of {Name}. Leave at least one spelling, or take the spellings away singly.");
        }

        return act.Reason is null
            ? new Refusal(RefusalKind.Invalid, "Write how you know that they are two people.")
            : GiveUp(moved, null, act);
    }

    /// <summary>Gets what another person gave up; what this one has already stays as it is.</summary>
    /// <param name="goods">What the other gave up.</param>
    /// <param name="places">The place of each spelling among the persons who have it; 0 where it is not named.</param>
    /// <param name="act">The act of the other's giving up.</param>
    public void Receive(HandedOver goods, IReadOnlyDictionary<string, int> places, Act act)
    {
        ArgumentNullException.ThrowIfNull(goods);
        foreach (var written in goods.Spellings.Except(Written).ToList())
        {
            _spellings.Add(new PersonSpelling(written, act, places.GetValueOrDefault(written)));
        }

        if (goods.AccountId is { } account)
        {
            _ties.Add(new AccountTie(account, act));
        }

        Version = Guid.NewGuid();
    }

    private bool HadBefore(string written, long actId) => _spellings.Exists(
        s => s.Written == written && s.ActId < actId && (s.EndedActId is null || s.EndedActId > actId));

    private HandedOver GiveUp(IReadOnlyList<PersonSpelling> spellings, AccountTie? tie, Act act)
    {
        foreach (var spelling in spellings)
        {
            spelling.End(act);
        }

        tie?.End(act);
        Version = Guid.NewGuid();
        return new([.. spellings.Select(s => s.Written)], tie?.AccountId);
    }
}
