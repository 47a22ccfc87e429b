using System.Security.Cryptography;
using Accession.Core.Outcomes;

namespace Accession.Storage.Accounts;

/// <summary>
/// Lets a program in: for a person, as far as that person may at the time, or for a device without a person. The token
/// is 256 random bits; only its hash is kept, so a copy of the database opens nothing.
/// </summary>
public sealed class ApiToken
{
    /// <summary>Before the number of a token, who a device is in the acts.</summary>
    public const string DevicePrefix = "device:";

    /// <summary>How old the note of the last use may grow before it is written again.</summary>
    public static readonly TimeSpan UseIsNotedEvery = TimeSpan.FromHours(1);

    private ApiToken()
    {
    }

    public long Id { get; private set; }

    public string TokenHash { get; private set; } = "";

    /// <summary>What the program or device is called; of a device it stands in the trail.</summary>
    public string Name { get; private set; } = "";

    /// <summary>The person for whom the program acts; null for a device.</summary>
    public string? AccountId { get; private set; }

    /// <summary>The names of the rights that were chosen, with commas between.</summary>
    public string RightNames { get; private set; } = "";

    /// <summary>The act that made it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that made it.</summary>
    public Act Act { get; private set; } = null!;

    public DateTime ExpiresAt { get; private set; }

    /// <summary>When it was last used, to the hour or so; null when it never was.</summary>
    public DateTime? LastUsedAt { get; private set; }

    /// <summary>When it was withdrawn; null while it may be used.</summary>
    public DateTime? WithdrawnAt { get; private set; }

    /// <summary>The act that withdrew it.</summary>
    public long? WithdrawnActId { get; private set; }

    /// <summary>The act that withdrew it.</summary>
    public Act? WithdrawnAct { get; private set; }

    /// <summary>Whether a device bears it, and no person.</summary>
    public bool IsOfDevice => AccountId is null;

    public IReadOnlySet<Right> Rights => RightsIn(RightNames);

    /// <summary>A new token; it is told once and never stored.</summary>
    public static string NewSecret() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));

    public static ApiToken Of(
        string secret, string name, string? accountId, IEnumerable<Right> rights, DateTime expiresAt, Act act)
    {
        return new()
        {
            TokenHash = SignInLink.Hash(secret),
            Name = name,
            AccountId = accountId,
            RightNames = string.Join(',', rights.Distinct().Order()),
            ExpiresAt = expiresAt,
            Act = act,
        };
    }

    /// <summary>The rights that a stored text names; a name that is no longer one gives nothing.</summary>
    public static IReadOnlySet<Right> RightsIn(string names) => names.Split(',')
        .Select(name => Enum.TryParse<Right>(name, out var right) ? right : (Right?)null)
        .OfType<Right>().ToHashSet();

    public void Withdraw(Act act) => (WithdrawnAt, WithdrawnAct) = (act.At, act);
}
