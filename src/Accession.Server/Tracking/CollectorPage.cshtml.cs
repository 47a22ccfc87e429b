using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Server.Hosting;
using Accession.Server.Shared;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>One collector: the spellings, those that may be the same person, and the account.</summary>
[Authorize(Access.Curators)]
public sealed class CollectorPageModel(AccessionDb db, RecordPerson record) : PageModel
{
    private const int MostCandidates = 100;

    public string Name { get; private set; } = "";

    public IReadOnlyList<Spelling> Spellings { get; private set; } = [];

    /// <summary>Spellings of the family name in the register that are nobody's yet.</summary>
    public IReadOnlyList<Spelling> Candidates { get; private set; } = [];

    public TiedAccount? Tied { get; private set; }

    public IReadOnlyList<FreeAccount> Free { get; private set; } = [];

    /// <summary>What was typed to find further spellings.</summary>
    public string? Family { get; private set; }

    public sealed record Spelling(string Written, int Gatherings);

    public sealed record TiedAccount(string Name, string UserName, DateTime Since, string By, string? How);

    public sealed record FreeAccount(string Id, string Name);

    public async Task<IActionResult> OnGetAsync(long id, string? family, CancellationToken cancellation) =>
        await LoadAsync(id, family, cancellation) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(
        long id, string? family, List<string> spellings, CancellationToken cancellation) => await AnswerAsync(
        id, family, await record.KnowAsync(id, spellings, HttpContext.Door(), cancellation),
        name => (spellings.Count == 1 ? "That spelling is " : $"These {spellings.Count} spellings are ")
            + name.WithStop(),
        cancellation);

    public async Task<IActionResult> OnPostAwayAsync(
        long id, string? spelling, CancellationToken cancellation) => await AnswerAsync(
        id, null, await record.KnowNoLongerAsync(id, spelling, HttpContext.Door(), cancellation),
        name => $"\"{spelling}\" is not {name} any more.", cancellation);

    public async Task<IActionResult> OnPostTieAsync(
        long id, string? account, string? how, CancellationToken cancellation) => await AnswerAsync(
        id, null, await record.TieAsync(id, account, how, HttpContext.Door(), cancellation),
        name => $"The account follows the sheets of {name} from now on.", cancellation);

    public async Task<IActionResult> OnPostUntieAsync(
        long id, string? why, CancellationToken cancellation) => await AnswerAsync(
        id, null, await record.UntieAsync(id, why, HttpContext.Door(), cancellation),
        name => $"No account follows the sheets of {name} any more.", cancellation);

    private async Task<IActionResult> AnswerAsync(
        long id, string? family, Outcome<string> outcome, Func<string, string> say, CancellationToken cancellation)
    {
        if (!outcome.IsRefused)
        {
            TempData["Said"] = say(outcome.Value);
            return Redirect($"/collector/{id}");
        }

        return await LoadAsync(id, family, cancellation) ? this.Show(outcome.Refusals) : NotFound();
    }

    private async Task<bool> LoadAsync(long id, string? family, CancellationToken cancellation)
    {
        var name = await db.Persons.Where(p => p.Id == id).Select(p => p.Name).SingleOrDefaultAsync(cancellation);
        if (name is null)
        {
            return false;
        }

        Name = name;
        Family = string.IsNullOrWhiteSpace(family) ? null : family.Trim();
        var mine = await db.PersonSpellings.Where(s => s.PersonId == id && s.EndedActId == null)
            .OrderBy(s => s.Written)
            .Select(s => new { s.Written, s.FamilyKey })
            .ToListAsync(cancellation);
        var keys = mine.Select(s => s.FamilyKey).Append(Collectors.FamilyKeyOf(Family ?? name)).Distinct().ToList();
        var seen = await SeenAsync(keys, cancellation);
        Spellings = [.. mine.Select(s => new Spelling(s.Written, seen.GetValueOrDefault(s.Written)))];
        var taken = await db.PersonSpellings.Where(s => s.EndedActId == null && keys.Contains(s.FamilyKey))
            .Select(s => s.Written).ToListAsync(cancellation);
        Candidates =
        [
            .. seen.Where(one => !taken.Contains(one.Key)).Select(one => new Spelling(one.Key, one.Value))
                .OrderByDescending(one => one.Gatherings).ThenBy(one => one.Written, StringComparer.Ordinal)
                .Take(MostCandidates),
        ];
        await LoadAccountAsync(id, cancellation);
        return true;
    }

    // The numbering collector stands first; whoever came along has no numbers of this gathering.
    private async Task<Dictionary<string, int>> SeenAsync(List<string> keys, CancellationToken cancellation)
    {
        var teams = await db.Gatherings.Where(g => keys.Contains(g.Notes.CollectorKey))
            .GroupBy(g => g.Notes.RecordedBy)
            .Select(team => new { team.Key, Gatherings = team.Count() })
            .ToListAsync(cancellation);
        return teams.GroupBy(team => team.Key.Split(" | ")[0])
            .Where(one => one.Key.Length > 0)
            .ToDictionary(one => one.Key, one => one.Sum(team => team.Gatherings));
    }

    private async Task LoadAccountAsync(long id, CancellationToken cancellation)
    {
        Tied = await db.AccountTies.Where(t => t.PersonId == id && t.EndedActId == null)
            .Join(db.Users, tie => tie.AccountId, user => user.Id, (tie, user) => new TiedAccount(
                user.DisplayName, user.UserName!, tie.Act.At, tie.Act.ActorName, tie.Act.Reason))
            .SingleOrDefaultAsync(cancellation);
        Free = Tied is not null
            ? []
            : await db.Users
                .Where(user => user.ClosedAt == null
                    && db.UserRoles.Any(link => link.UserId == user.Id
                        && db.Roles.Any(r => r.Id == link.RoleId && r.Name == nameof(Role.Collector)))
                    && !db.AccountTies.Any(t => t.AccountId == user.Id && t.EndedActId == null))
                .OrderBy(user => user.DisplayName)
                .Select(user => new FreeAccount(user.Id, user.DisplayName + ", " + user.UserName))
                .ToListAsync(cancellation);
    }
}
