using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Accession.Server.Administering;

[Authorize(Access.Administrators)]
public sealed class AccountsModel(AccessionDb db, CreateAccount create) : PageModel
{
    [BindProperty]
    public string? DisplayName { get; set; }

    [BindProperty]
    public string? UserName { get; set; }

    [BindProperty]
    public List<Role> Roles { get; set; } = [];

    public CreateAccount.Invitation? Invitation { get; private set; }

    public IReadOnlyList<ShownAccount> Everybody { get; private set; } = [];

    [BindProperty]
    public string? Counties { get; set; }

    public Task OnGetAsync(CancellationToken cancellation) => LoadAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation) => await AnswerAsync(
        await create.RunAsync(new(UserName, DisplayName, Roles, Counties), HttpContext.Door(), cancellation),
        cancellation);

    public async Task<IActionResult> OnPostLinkAsync(string accountId, CancellationToken cancellation)
    {
        ModelState.Clear();
        return await AnswerAsync(
            await create.LinkAgainAsync(accountId, HttpContext.Door(), cancellation), cancellation);
    }

    private async Task<IActionResult> AnswerAsync(
        Outcome<CreateAccount.Invitation> outcome, CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        if (outcome.IsRefused)
        {
            return this.Show(outcome.Refusals);
        }

        Invitation = outcome.Value;
        return Page();
    }

    private async Task LoadAsync(CancellationToken cancellation) => Everybody = await ShownAccount.OfAsync(
        db, db.Users.OrderBy(user => user.DisplayName), cancellation);
}
