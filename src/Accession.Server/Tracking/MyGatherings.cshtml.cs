using Accession.Server.Hosting;
using Accession.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>For a collector: every number of mine, and where its sheets are. What came last stands first.</summary>
[Authorize(Access.Collectors)]
public sealed class MyGatheringsModel(AccessionDb db, OwnGatherings own) : PageModel
{
    private const int PageSize = 50;

    /// <summary>As whom a curator knows this account; null while nobody said so.</summary>
    public string? Person { get; private set; }

    public string? Query { get; private set; }

    public IReadOnlyList<OwnGatherings.Mine> Shown { get; private set; } = [];

    public long? Next { get; private set; }

    public async Task OnGetAsync(string? q, long? before, CancellationToken cancellation)
    {
        var me = User.Actor();
        Query = string.IsNullOrWhiteSpace(q) ? null : q.Trim();
        Person = await db.AccountTies.Where(t => t.AccountId == me.Id && t.EndedActId == null)
            .Join(db.Persons, tie => tie.PersonId, person => person.Id, (_, person) => person.Name)
            .SingleOrDefaultAsync(cancellation);
        var found = await own.OfAsync(me, Query, before, PageSize + 1, cancellation);
        Next = found.Count > PageSize ? found[PageSize - 1].Of.Id : null;
        Shown = [.. found.Take(PageSize)];
    }
}
