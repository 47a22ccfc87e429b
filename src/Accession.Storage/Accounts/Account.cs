using Microsoft.AspNetCore.Identity;

namespace Accession.Storage.Accounts;

/// <summary>A person who may sign in.</summary>
public sealed class Account : IdentityUser
{
    /// <summary>The name that stands in the trail.</summary>
    public string DisplayName { get; set; } = "";

    /// <summary>When the account was closed; null while it opens. What it did stays in the trail.</summary>
    public DateTime? ClosedAt { get; set; }
}
