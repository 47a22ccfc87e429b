using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>A token as people see it: never the token itself.</summary>
public sealed record ShownToken(
    long Id, string Name, string RightNames, DateTime MadeAt, string MadeBy, DateTime ExpiresAt, DateTime? LastUsedAt,
    DateTime? WithdrawnAt)
{
    private const int MostShown = 200;

    /// <summary>What each right is called on pages.</summary>
    public static string Words(Right right) => right switch
    {
        Right.ReadRegister => "Read the register",
        Right.SendLists => "Send lists",
        Right.Settle => "Settle rows and findings, take in, protect places; sees rows with exact places",
        Right.NumberSheets => "Number sheets",
        Right.KeepNumbers => "Begin series, register rolls, make numbers void",
        Right.Publish => "Ask for archives and fetch them",
        Right.HandleParcels => "Tag parcels, list freezer loads and settle them",
        Right.WorkAtBench => "Mark steps, put sheets in places, say under which name they are filed",
        Right.NameSheets => "Record opinions about names, which wait for a curator",
        Right.Administer => "Close and open series, hold the mail and let it go",
        Right.KeepAccounts => "Let people in, change what they do, close and open accounts",
        Right.ReadCounties => "Read the sheets from my counties",
        Right.KeyLabels => "Key the labels of piles that came without a list",
        Right.ReadCollected => "Read what I collected",
        _ => right.ToString(),
    };

    public IEnumerable<string> Rights => ApiToken.RightsIn(RightNames).Order().Select(Words);

    public string State(DateTime now) =>
        WithdrawnAt is not null ? "Withdrawn" : ExpiresAt <= now ? "Expired" : "In force";

    /// <summary>The tokens of a person, or of all devices, the newest first.</summary>
    public static async Task<IReadOnlyList<ShownToken>> OfAsync(
        AccessionDb db, string? accountId, CancellationToken cancellation) => await db.ApiTokens
        .Where(token => token.AccountId == accountId)
        .OrderByDescending(token => token.Id)
        .Take(MostShown)
        .Select(token => new ShownToken(
            token.Id, token.Name, token.RightNames, token.Act.At, token.Act.ActorName, token.ExpiresAt,
            token.LastUsedAt, token.WithdrawnAt))
        .ToListAsync(cancellation);
}
