using System.Security.Cryptography;

namespace Accession.Storage.Accounts;

/// <summary>
/// A link that signs one person in, once. The token is 256 random bits; only its hash is kept, so a copy of the
/// database opens nothing.
/// </summary>
public sealed class SignInLink
{
    private SignInLink()
    {
    }

    public long Id { get; private set; }

    public string TokenHash { get; private set; } = "";

    public string AccountId { get; private set; } = "";

    public DateTime ExpiresAt { get; private set; }

    public DateTime? UsedAt { get; private set; }

    /// <summary>Makes a link and the token that goes into it; the token is told once and never stored.</summary>
    public static (SignInLink Link, string Token) For(Account account, DateTime expiresAt)
    {
        var token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
        return (new SignInLink { TokenHash = Hash(token), AccountId = account.Id, ExpiresAt = expiresAt }, token);
    }

    public static string Hash(string token) =>
        Convert.ToHexStringLower(SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(token)));

    /// <summary>Whether the link still opens at this time.</summary>
    public bool Opens(DateTime now) => UsedAt is null && now < ExpiresAt;
}
