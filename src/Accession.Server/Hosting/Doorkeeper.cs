using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>
/// Signs people in; a one-time link counts as a password does, so that a second factor is asked for as well.
/// </summary>
public sealed class Doorkeeper(
    UserManager<Account> accounts,
    IHttpContextAccessor context,
    IUserClaimsPrincipalFactory<Account> claims,
    IOptions<IdentityOptions> options,
    ILogger<SignInManager<Account>> log,
    IAuthenticationSchemeProvider schemes,
    IUserConfirmation<Account> open)
    : SignInManager<Account>(accounts, context, claims, options, log, schemes, open)
{
    public Task<SignInResult> SignInByLinkAsync(Account account) =>
        SignInOrTwoFactorAsync(account, isPersistent: false);

    /// <summary>Signs in with what the browser answered; whatever that is, it never ends in a fault.</summary>
    public async Task<SignInResult> SignInByPasskeyAsync(string? credential)
    {
        try
        {
            return string.IsNullOrWhiteSpace(credential)
                ? SignInResult.Failed
                : await PasskeySignInAsync(credential);
        }
        catch (InvalidOperationException)
        {
            // Nothing was asked, or the question was answered before: the form was sent again.
            return SignInResult.Failed;
        }
    }

    /// <summary>The passkey that the browser made; null where it made none that fits what was asked.</summary>
    public async Task<UserPasskeyInfo?> NewPasskeyAsync(string? credential)
    {
        try
        {
            return !string.IsNullOrWhiteSpace(credential)
                && await PerformPasskeyAttestationAsync(credential) is { Succeeded: true } made
                    ? made.Passkey
                    : null;
        }
        catch (InvalidOperationException)
        {
            return null;   // as above
        }
    }
}
