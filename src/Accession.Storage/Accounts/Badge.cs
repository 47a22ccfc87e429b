using System.Security.Cryptography;
using Accession.Core.Outcomes;

namespace Accession.Storage.Accounts;

/// <summary>
/// A card that says at a bench who is working: scanned into a line of somebody who is signed in, the scans after it
/// bear its holder's name. It signs nobody in. Its code is 100 random bits; only the hash is kept, so a copy of the
/// database prints no badge.
/// </summary>
public sealed class Badge
{
    /// <summary>How many characters follow the lead.</summary>
    public const int Length = 20;

    /// <summary>What every badge's code begins with, so that none is taken for the number of a sheet.</summary>
    public const string Lead = "BG.";

    /// <summary>What a badge's code looks like, for the script of the scan line.</summary>
    public const string Pattern = @"^bg\.[0-9a-z]{20}$";

    // Without I, L, O and U, which are read as others: 32 characters, 5 bits each.
    private const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    private Badge()
    {
    }

    public long Id { get; private set; }

    public string CodeHash { get; private set; } = "";

    /// <summary>Whose badge it is.</summary>
    public string AccountId { get; private set; } = "";

    /// <summary>The act that made it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that made it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>When it was withdrawn; null while it says who is working.</summary>
    public DateTime? WithdrawnAt { get; private set; }

    /// <summary>The act that withdrew it.</summary>
    public long? WithdrawnActId { get; private set; }

    /// <summary>The act that withdrew it.</summary>
    public Act? WithdrawnAct { get; private set; }

    /// <summary>A new code; it is printed once and never stored.</summary>
    public static string NewCode() => Lead + RandomNumberGenerator.GetString(Alphabet, Length);

    /// <summary>Whether a text that was scanned is the code of a badge, known here or not.</summary>
    public static bool IsCode(string? scanned) => scanned?.Trim() is { } code
        && code.Length == Lead.Length + Length
        && code.StartsWith(Lead, StringComparison.OrdinalIgnoreCase)
        && code[Lead.Length..].All(char.IsAsciiLetterOrDigit);

    /// <summary>What is kept of a code; a keyboard with its capitals locked types small letters.</summary>
    public static string Hash(string code) => SignInLink.Hash(code.Trim().ToUpperInvariant());

    public static Badge Of(string code, string accountId, Act act) => new()
    {
        CodeHash = Hash(code),
        AccountId = accountId,
        Act = act,
    };

    public void Withdraw(Act act) => (WithdrawnAt, WithdrawnAct) = (act.At, act);
}
