using System.Security.Cryptography;
using Accession.Core.Outcomes;

namespace Accession.Storage.Accounts;

/// <summary>
/// A link in a receipt that shows, without an account, what became of a parcel or a batch. The token is 256 random
/// bits; only its hash is kept, so a copy of the register opens nothing.
/// </summary>
public sealed class PrivateLink
{
    private PrivateLink()
    {
    }

    public long Id { get; private set; }

    public string TokenHash { get; private set; } = "";

    /// <summary>The parcel that it is about; null where it is about a batch.</summary>
    public long? ParcelId { get; private set; }

    /// <summary>The batch that it is about; null where it is about a parcel.</summary>
    public long? BatchId { get; private set; }

    /// <summary>The act that made it.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that made it.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>The act that withdrew it; null while it opens.</summary>
    public long? EndedActId { get; private set; }

    /// <summary>The act that withdrew it; null while it opens.</summary>
    public Act? EndedAct { get; private set; }

    /// <summary>Makes a link and the token that goes into it; the token is told once and never stored.</summary>
    public static (PrivateLink Link, string Token) To(long? parcelId, long? batchId, Act act)
    {
        var token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
        return (new()
        {
            TokenHash = SignInLink.Hash(token),
            ParcelId = parcelId,
            BatchId = batchId,
            Act = act,
        }, token);
    }

    /// <summary>Withdraws it: it opens nothing from now on.</summary>
    public Refusal? End(Act act)
    {
        if (EndedActId is not null)
        {
            return new(RefusalKind.Conflict, "This link was withdrawn already.");
        }

        EndedAct = act;
        return null;
    }
}
