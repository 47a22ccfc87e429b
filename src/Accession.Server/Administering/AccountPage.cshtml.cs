using Accession.Core.Outcomes;
using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

[Authorize(Access.Administrators)]
public sealed class AccountPageModel(AccessionDb db, ChangeAccount change, WithdrawBadge withdrawBadge) : PageModel
{
    [BindProperty]
    public List<Role> Roles { get; set; } = [];

    [BindProperty]
    public string? Counties { get; set; }

    public string DisplayName { get; private set; } = "";

    public string UserName { get; private set; } = "";

    public bool IsClosed { get; private set; }

    public bool HasSecondStep { get; private set; }

    public int Passkeys { get; private set; }

    /// <summary>When the badge was made that is in force; null when none is.</summary>
    public DateTime? BadgeSince { get; private set; }

    public TiedPerson? Person { get; private set; }

    public sealed record TiedPerson(string Name, DateTime Since, string? How);

    public async Task<IActionResult> OnGetAsync(string id, CancellationToken cancellation)
    {
        if (!await LoadAsync(id, cancellation))
        {
            return NotFound();
        }

        Roles = (await db.UserRoles.Where(link => link.UserId == id)
            .Join(db.Roles, link => link.RoleId, role => role.Id, (_, role) => role.Name!).ToListAsync(cancellation))
            .ConvertAll(Enum.Parse<Role>);
        Counties = string.Join('\n', await db.AccountCounties.Where(c => c.AccountId == id).OrderBy(c => c.Written)
            .Select(c => c.Written).ToListAsync(cancellation));
        return Page();
    }

    public async Task<IActionResult> OnPostWorkAsync(string id, CancellationToken cancellation) => await AnswerAsync(
        id, await change.RunAsync(new(id, Roles, Counties), HttpContext.Door(), cancellation),
        name => $"The work of {name} was changed.", cancellation);

    public async Task<IActionResult> OnPostCloseAsync(string id, CancellationToken cancellation) => await AnswerAsync(
        id, await change.CloseAsync(id, HttpContext.Door(), cancellation),
        name => $"The account of {name} is closed.", cancellation);

    public async Task<IActionResult> OnPostOpenAsync(string id, CancellationToken cancellation) => await AnswerAsync(
        id, await change.OpenAsync(id, HttpContext.Door(), cancellation),
        name => $"The account of {name} is open again.", cancellation);

    public async Task<IActionResult> OnPostSecondFactorAsync(string id, CancellationToken cancellation) =>
        await AnswerAsync(
            id, await change.TakeSecondFactorAwayAsync(id, HttpContext.Door(), cancellation),
            name => $"{name} signs in without a second step, and has no passkey any more.", cancellation);

    public async Task<IActionResult> OnPostBadgeAsync(string id, CancellationToken cancellation) =>
        await AnswerAsync(
            id, await withdrawBadge.RunAsync(id, HttpContext.Door(), cancellation),
            name => $"The badge of {name} says nothing any more.", cancellation);

    private async Task<IActionResult> AnswerAsync(
        string id, Outcome<string> outcome, Func<string, string> say, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = say(outcome.Value);
            return RedirectToPage(new { id });
        }

        return await LoadAsync(id, cancellation) ? this.Show(outcome.Refusals) : NotFound();
    }

    private async Task<bool> LoadAsync(string id, CancellationToken cancellation)
    {
        var account = await db.Users.Where(user => user.Id == id)
            .Select(user => new
            {
                user.DisplayName,
                user.UserName,
                user.ClosedAt,
                user.TwoFactorEnabled,
                Passkeys = db.UserPasskeys.Count(passkey => passkey.UserId == user.Id),
            })
            .SingleOrDefaultAsync(cancellation);
        if (account is null)
        {
            return false;
        }

        (DisplayName, UserName) = (account.DisplayName, account.UserName!);
        IsClosed = account.ClosedAt is not null;
        (HasSecondStep, Passkeys) = (account.TwoFactorEnabled, account.Passkeys);
        BadgeSince = await db.Badges.Where(b => b.AccountId == id && b.WithdrawnAt == null)
            .Select(b => (DateTime?)b.Act.At).FirstOrDefaultAsync(cancellation);
        Person = await db.AccountTies.Where(tie => tie.AccountId == id && tie.EndedActId == null)
            .Select(tie => new TiedPerson(
                db.Persons.Where(p => p.Id == tie.PersonId).Select(p => p.Name).Single(), tie.Act.At, tie.Act.Reason))
            .SingleOrDefaultAsync(cancellation);
        return true;
    }
}
