using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;

namespace Accession.Server.Hosting;

/// <summary>Nobody comes in by a closed account, whatever the way.</summary>
internal sealed class OpenAccounts : IUserConfirmation<Account>
{
    public Task<bool> IsConfirmedAsync(UserManager<Account> manager, Account user) =>
        Task.FromResult(user.ClosedAt is null);
}
