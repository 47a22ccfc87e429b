using System.Globalization;
using System.Text.Encodings.Web;
using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.Extensions.Options;

namespace Accession.Server.Administering;

[Authorize]
public sealed class MyWaysInModel(
    UserManager<Account> accounts,
    SignInManager<Account> signIn,
    WaysIn ways,
    IOptions<InstitutionOptions> institution) : PageModel
{
    private Account? _me;

    public bool HasSecondStep { get; private set; }

    /// <summary>The secret for the app, while the second step is being set up.</summary>
    public string? Secret { get; private set; }

    /// <summary>The secret as the address that apps read from a picture.</summary>
    public string? SecretAddress { get; private set; }

    public int CodesLeft { get; private set; }

    /// <summary>New recovery codes, shown once.</summary>
    public IReadOnlyList<string> RecoveryCodes { get; private set; } = [];

    public IReadOnlyList<Passkey> Passkeys { get; private set; } = [];

    public sealed record Passkey(string Id, string Name, DateTime Since);

    public Task OnGetAsync() => LoadAsync();

    /// <summary>Makes the secret; nothing is asked for before a code of it was right.</summary>
    public async Task<IActionResult> OnPostSetUpAsync()
    {
        var me = await MeAsync();
        if (!me.TwoFactorEnabled)
        {
            await accounts.ResetAuthenticatorKeyAsync(me);
            await signIn.RefreshSignInAsync(me);
            await LoadAsync();
            Secret = await accounts.GetAuthenticatorKeyAsync(me);
            SecretAddress = AddressOf(Secret!);
            return Page();
        }

        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostConfirmAsync(string? code, CancellationToken cancellation)
    {
        var outcome = await ways.BeginSecondStepAsync(await MeAsync(), code, HttpContext.Door(), cancellation);
        if (outcome.IsRefused)
        {
            await LoadAsync();
            Secret = await accounts.GetAuthenticatorKeyAsync(await MeAsync());
            SecretAddress = Secret is null ? null : AddressOf(Secret);
            return this.Show(outcome.Refusals, nameof(code));
        }

        return await ShowCodesAsync(outcome.Value);
    }

    public async Task<IActionResult> OnPostCodesAsync(CancellationToken cancellation)
    {
        var outcome = await ways.NewRecoveryCodesAsync(await MeAsync(), HttpContext.Door(), cancellation);
        return outcome.IsRefused ? await RefuseAsync(outcome.Refusals) : await ShowCodesAsync(outcome.Value);
    }

    public async Task<IActionResult> OnPostEndAsync(string? code, CancellationToken cancellation) => await AnswerAsync(
        await ways.EndSecondStepAsync(await MeAsync(), code, HttpContext.Door(), cancellation),
        _ => "Signing in asks for no second step any more.");

    /// <summary>What the browser needs to make a passkey.</summary>
    public async Task<IActionResult> OnPostPasskeyOptionsAsync()
    {
        var me = await MeAsync();
        return Content(
            await signIn.MakePasskeyCreationOptionsAsync(new()
            {
                Id = me.Id,
                Name = me.UserName!,
                DisplayName = me.DisplayName,
            }),
            "application/json");
    }

    public async Task<IActionResult> OnPostPasskeyAsync(
        string? credential, string? name, CancellationToken cancellation) => await AnswerAsync(
        await ways.AddPasskeyAsync(await MeAsync(), credential, name, HttpContext.Door(), cancellation),
        kept => $"\"{kept}\" signs you in from now on.");

    public async Task<IActionResult> OnPostRemovePasskeyAsync(string? id, CancellationToken cancellation) =>
        await AnswerAsync(
            await ways.RemovePasskeyAsync(await MeAsync(), id, HttpContext.Door(), cancellation),
            gone => $"\"{gone}\" no longer signs you in.");

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, Func<T, string> say)
    {
        if (outcome.IsRefused)
        {
            return await RefuseAsync(outcome.Refusals);
        }

        // Changing how one signs in renews the stamp of the account; this browser stays signed in.
        await signIn.RefreshSignInAsync(await MeAsync());
        TempData["Said"] = say(outcome.Value);
        return RedirectToPage();
    }

    private async Task<IActionResult> RefuseAsync(IReadOnlyList<Refusal> refusals)
    {
        await LoadAsync();
        return this.Show(refusals);
    }

    private async Task<IActionResult> ShowCodesAsync(IReadOnlyList<string> codes)
    {
        await signIn.RefreshSignInAsync(await MeAsync());
        await LoadAsync();
        RecoveryCodes = codes;
        return Page();
    }

    private async Task LoadAsync()
    {
        var me = await MeAsync();
        HasSecondStep = me.TwoFactorEnabled;
        CodesLeft = await accounts.CountRecoveryCodesAsync(me);
        Passkeys =
        [
            .. (await accounts.GetPasskeysAsync(me)).OrderBy(one => one.CreatedAt).Select(one => new Passkey(
                Convert.ToHexString(one.CredentialId), one.Name ?? "Passkey", one.CreatedAt.UtcDateTime)),
        ];
    }

    // The key URI that authenticator apps read; its form is theirs, not a standard's (common practice).
    private string AddressOf(string secret)
    {
        var issuer = UrlEncoder.Default.Encode(institution.Value.Name);
        var name = UrlEncoder.Default.Encode(_me!.UserName!);
        return string.Create(
            CultureInfo.InvariantCulture, $"otpauth://totp/{issuer}:{name}?secret={secret}&issuer={issuer}&digits=6");
    }

    private async Task<Account> MeAsync() => _me ??= await accounts.GetUserAsync(User)
        ?? throw new InvalidOperationException("The signed-in account is not in the register.");
}
