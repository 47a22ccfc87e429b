using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

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

    public IReadOnlyList<Person> Everybody { get; private set; } = [];

    [BindProperty]
    public string? Counties { get; set; }

    public sealed record Person(
        string Id, string DisplayName, string UserName, string Work, string Counties, bool IsClosed,
        bool HasSecondStep);

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

    private async Task LoadAsync(CancellationToken cancellation)
    {
        var people = await db.Users.OrderBy(user => user.DisplayName)
            .Select(user => new
            {
                user.Id,
                user.DisplayName,
                user.UserName,
                IsClosed = user.ClosedAt != null,
                user.TwoFactorEnabled,
            })
            .ToListAsync(cancellation);
        var roles = await db.UserRoles
            .Join(db.Roles, link => link.RoleId, role => role.Id, (link, role) => new { link.UserId, role.Name })
            .ToListAsync(cancellation);
        var rolesOf = roles.ToLookup(role => role.UserId, role => role.Name!);
        var counties = (await db.AccountCounties.OrderBy(c => c.Written).ToListAsync(cancellation))
            .ToLookup(county => county.AccountId, county => county.Written);
        Everybody =
        [
            .. people.Select(p => new Person(
                p.Id, p.DisplayName, p.UserName!,
                string.Join(", ", rolesOf[p.Id].Select(Enum.Parse<Role>).Order().Select(role => role.Said())),
                string.Join("; ", counties[p.Id]), p.IsClosed, p.TwoFactorEnabled)),
        ];
    }
}
