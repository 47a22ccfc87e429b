using Accession.Core.Outcomes;

namespace Accession.Core.People;

/// <summary>That an account is a collector's own, from one act to another.</summary>
public sealed class AccountTie
{
    private AccountTie()
    {
    }

    internal AccountTie(string accountId, Act act) => (AccountId, Act) = (accountId, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The person.</summary>
    public long PersonId { get; private set; }

    /// <summary>The account.</summary>
    public string AccountId { get; private set; } = "";

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that said so: who, when, and how the curator knows.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that took it away; null while it holds.</summary>
    public long? EndedActId { get; private set; }

    /// <summary>The act that took it away; null while it holds.</summary>
    public Act? EndedAct { get; private set; }

    internal void End(Act act) => EndedAct = act;
}
