namespace Accession.Storage.Accounts;

/// <summary>A county that a weed officer's account reaches.</summary>
public sealed class AccountCounty
{
    private AccountCounty()
    {
    }

    /// <summary>The account.</summary>
    public string AccountId { get; private set; } = "";

    /// <summary>The county and its state, as they are compared.</summary>
    public string CountyKey { get; private set; } = "";

    /// <summary>The county and its state as they were written.</summary>
    public string Written { get; private set; } = "";

    /// <summary>Lets an account see a county.</summary>
    public static AccountCounty Of(string accountId, Core.Localities.CountyName county) => new()
    {
        AccountId = accountId,
        CountyKey = county.Key,
        Written = $"{county.County}, {county.StateProvince}",
    };
}
