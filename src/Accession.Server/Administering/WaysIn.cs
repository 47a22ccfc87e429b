using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Identity;

namespace Accession.Server.Administering;

/// <summary>A person's own ways to sign in besides the password: a second step by an app, and passkeys.</summary>
public sealed class WaysIn(
    AccessionDb db, UserManager<Account> accounts, Doorkeeper doorkeeper, TimeProvider clock)
{
    private const int RecoveryCodes = 10;
    private const int MostPasskeys = 20;
    private const int LongestName = 80;

    /// <summary>
    /// Asks for the second step from now on, once a code of the app was right; answers the recovery codes.
    /// </summary>
    public Task<Outcome<IReadOnlyList<string>>> BeginSecondStepAsync(
        Account account, string? code, Door door, CancellationToken cancellation) => CarryOutAsync(
        door, "ask for a second step when signing in",
        async () => await FitsAsync(account, code)
            ? await EnabledAsync(account)
            : new Refusal(RefusalKind.Invalid,
                "That code does not fit. Type the six digits that the app shows now; if it still does not fit, look "
                + "whether the clock of the telephone is right."),
        cancellation);

    /// <summary>New recovery codes; the old ones no longer work.</summary>
    public Task<Outcome<IReadOnlyList<string>>> NewRecoveryCodesAsync(
        Account account, Door door, CancellationToken cancellation) => CarryOutAsync<IReadOnlyList<string>>(
        door, "make new recovery codes",
        async () => account.TwoFactorEnabled
            ? await CodesAsync(account)
            : new Refusal(RefusalKind.Conflict, "There is no second step yet, so there is nothing to recover."),
        cancellation);

    /// <summary>No second step any more.</summary>
    public Task<Outcome<bool>> EndSecondStepAsync(
        Account account, string? code, Door door, CancellationToken cancellation) => CarryOutAsync<bool>(
        door, "ask for no second step any more",
        async () =>
        {
            if (!await FitsAsync(account, code))
            {
                return new Refusal(RefusalKind.Invalid, "That code does not fit, so the second step stays.");
            }

            await accounts.SetTwoFactorEnabledAsync(account, false);
            await accounts.ResetAuthenticatorKeyAsync(account);
            return true;
        },
        cancellation);

    /// <summary>Keeps a passkey that the browser made; answers its name.</summary>
    /// <param name="credential">What the browser answered, as JSON.</param>
    public Task<Outcome<string>> AddPasskeyAsync(
        Account account, string? credential, string? name, Door door, CancellationToken cancellation) =>
        CarryOutAsync<string>(
            door, "add a passkey",
            async () =>
            {
                if (await doorkeeper.NewPasskeyAsync(credential) is not { } passkey)
                {
                    return new Refusal(RefusalKind.Invalid,
                        "The passkey could not be kept: the browser's answer does not fit what was asked. "
                        + "Try it again.");
                }

                if ((await accounts.GetPasskeysAsync(account)).Count >= MostPasskeys)
                {
                    return new Refusal(RefusalKind.Conflict, $"There are {MostPasskeys} passkeys. Remove one first.");
                }

                passkey.Name = name?.Trim() is { Length: > 0 } tidy
                    ? tidy[..Math.Min(tidy.Length, LongestName)]
                    : "Passkey";
                await accounts.AddOrUpdatePasskeyAsync(account, passkey);
                return passkey.Name;
            },
            cancellation);

    /// <summary>Removes a passkey; answers its name.</summary>
    public Task<Outcome<string>> RemovePasskeyAsync(
        Account account, string? id, Door door, CancellationToken cancellation) => CarryOutAsync<string>(
        door, "remove a passkey",
        async () =>
        {
            var passkey = (await accounts.GetPasskeysAsync(account))
                .FirstOrDefault(one => Convert.ToHexString(one.CredentialId) == id);
            if (passkey is null)
            {
                return new Refusal(RefusalKind.NotFound, "That passkey is not there any more.");
            }

            await accounts.RemovePasskeyAsync(account, passkey.CredentialId);
            return passkey.Name ?? "Passkey";
        },
        cancellation);

    private async Task<Outcome<IReadOnlyList<string>>> EnabledAsync(Account account)
    {
        await accounts.SetTwoFactorEnabledAsync(account, true);
        return await CodesAsync(account);
    }

    private async Task<List<string>> CodesAsync(Account account) =>
        [.. await accounts.GenerateNewTwoFactorRecoveryCodesAsync(account, RecoveryCodes) ?? []];

    private async Task<bool> FitsAsync(Account account, string? code) => await accounts.VerifyTwoFactorTokenAsync(
        account, TokenOptions.DefaultAuthenticatorProvider,
        string.Concat((code ?? "").Where(c => !char.IsWhiteSpace(c))));

    private Task<Outcome<T>> CarryOutAsync<T>(
        Door door, string what, Func<Task<Outcome<T>>> verbs, CancellationToken cancellation) =>
        db.CarryOutAsync(door, Act.Of(door, what, clock.GetUtcNow().UtcDateTime), verbs, cancellation);
}
