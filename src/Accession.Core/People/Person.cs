using Accession.Core.Outcomes;

namespace Accession.Core.People;

/// <summary>
/// A collector, with the spellings under which the register knows them. A curator says which spellings are one person,
/// and which account is theirs; the program never guesses either.
/// </summary>
public sealed partial class Person
{
    /// <summary>The longest name and the longest spelling, in characters.</summary>
    public const int LongestName = 200;

    private readonly List<PersonSpelling> _spellings = [];
    private readonly List<AccountTie> _ties = [];

    private Person()
    {
    }

    /// <summary>The key in the database, and the number in the person's address.</summary>
    public long Id { get; private set; }

    /// <summary>The name as the curator writes it.</summary>
    public string Name { get; private set; } = "";

    /// <summary>The act that put the person on record.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that put the person on record.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Every spelling that was ever said to be this person's, the oldest first.</summary>
    public IReadOnlyList<PersonSpelling> Spellings => _spellings;

    /// <summary>Every account that was ever said to be this person's, the oldest first.</summary>
    public IReadOnlyList<AccountTie> Ties => _ties;

    /// <summary>Renewed by every verb, so that two people who change it at once cannot both save.</summary>
    public Guid Version { get; private set; }

    /// <summary>The account that is this person's now; null while none is.</summary>
    public AccountTie? Tie => _ties.LastOrDefault(tie => tie.EndedAct is null);

    /// <summary>Puts a person on record.</summary>
    /// <param name="name">The name as the curator writes it.</param>
    /// <param name="act">The act: who and when.</param>
    public static Outcome<Person> OnRecord(string? name, Act act) =>
        name?.Trim() is { Length: > 0 and <= LongestName } tidy
        ? new Person { Name = tidy, Act = act, Version = Guid.NewGuid() }
        : new Refusal(RefusalKind.Invalid, $"Write the collector's name, in at most {LongestName} characters.");

    /// <summary>Says that a spelling in the register is this person, or why it cannot be.</summary>
    /// <param name="written">One collector as the register shows it, such as "J. R. Sandover".</param>
    /// <param name="act">The act: who and when.</param>
    /// <param name="place">
    /// Its place among the persons of this spelling: 0 while nobody else has it. No two have one place.
    /// </param>
    public Refusal? KnowAs(string written, Act act, int place = 0)
    {
        ArgumentNullException.ThrowIfNull(written);
        if (written.Trim() is not { Length: > 0 and <= LongestName } tidy)
        {
            return new(RefusalKind.Invalid, "Choose a spelling as it stands in the register.");
        }

        if (_spellings.Any(spelling => spelling.EndedAct is null && spelling.Written == tidy))
        {
            return new(RefusalKind.Conflict, $"\"{tidy}\" is {Name} already.");
        }

        _spellings.Add(new PersonSpelling(tidy, act, place));
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Says that a spelling is not this person after all.</summary>
    /// <param name="written">The spelling.</param>
    /// <param name="act">The act: who and when.</param>
    public Refusal? KnowNoLongerAs(string written, Act act)
    {
        if (_spellings.FirstOrDefault(s => s.EndedAct is null && s.Written == written) is not { } spelling)
        {
            return new(RefusalKind.Conflict, $"\"{written}\" is not {Name} any more; look again.");
        }

        spelling.End(act);
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Says whose account it is, so that the person can follow the sheets; or why not.</summary>
    /// <param name="accountId">The account.</param>
    /// <param name="act">The act: who, when, and how the curator knows.</param>
    public Refusal? TieTo(string accountId, Act act)
    {
        ArgumentNullException.ThrowIfNull(act);
        if (act.Reason is null)
        {
            return new(RefusalKind.Invalid,
                "Write how you know that it is the same person: the account will see every place of these sheets "
                + "that is not protected.");
        }

        if (Tie is not null)
        {
            return new(RefusalKind.Conflict, $"{Name} has an account already. Take it away first.");
        }

        _ties.Add(new AccountTie(accountId, act));
        Version = Guid.NewGuid();
        return null;
    }

    /// <summary>Takes the account away: it sees nothing of this person from now on.</summary>
    /// <param name="act">The act: who and when.</param>
    public Refusal? Untie(Act act)
    {
        if (Tie is not { } tie)
        {
            return new(RefusalKind.Conflict, $"{Name} has no account any more; look again.");
        }

        tie.End(act);
        Version = Guid.NewGuid();
        return null;
    }
}
