using System.Globalization;
using System.Xml.Linq;
using Accession.Core.Letters;
using Accession.Core.Outcomes;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Accession.Storage;
using Accession.Storage.Accounts;
using Accession.Storage.Numbers;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// What is done to a register that was put back, in one act and before anybody sees it: it may have forgotten numbers
/// that are on paper, mail that was sent, and whom somebody shut out since.
/// </summary>
internal sealed class RestoredRegister(
    AccessionDb db,
    CloseEverySeries numbers,
    IEnumerable<WorkKind> kinds,
    InstitutionClock institution,
    TimeProvider clock)
{
    /// <summary>The act, as it stands in the trail.</summary>
    public const string What = "restore the register";

    private static readonly TimeSpan LinkLasts = TimeSpan.FromHours(24);

    /// <summary>What came of it.</summary>
    public sealed record Restored(int SeriesClosed, int WorkAtRest, IReadOnlyList<FirstStart.PrintedLink> Links);

    /// <summary>Does it within the open transaction.</summary>
    /// <param name="takenAt">The moment of the backup, in UTC.</param>
    public async Task<Outcome<Restored>> RunAsync(DateTime takenAt, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var act = Act.Of(
            Door.System, What, now,
            $"the register was restored on {institution.ShowDay(now)} from the backup of {institution.Show(takenAt)}");
        db.Add(act);
        await db.SaveChangesAsync(cancellation);
        var closed = await numbers.CloseAsync(act, cancellation);
        if (closed.IsRefused)
        {
            return closed.Refusals.ToList();
        }

        // Tags and slips given out since are on paper: whoever tags the next parcel looks first.
        await db.TagCounters.ExecuteUpdateAsync(
            row => row.SetProperty(counter => counter.ClosedActId, act.Id), cancellation);
        db.Add(MailHold.Begin(act));
        var atRest = await PutWorkToRestAsync(act, cancellation);
        await ShutDoorsAsync(act, cancellation);
        var links = await LinksAsync(now, cancellation);
        await db.SaveChangesAsync(cancellation);
        return new Restored(closed.Value, atRest, links);
    }

    private async Task<int> PutWorkToRestAsync(Act act, CancellationToken cancellation)
    {
        var goOn = kinds.Where(kind => kind.AfterRestore == AfterRestore.GoesOn).Select(kind => kind.Name).ToList();
        // Whoever had it was a process of another time, and perhaps of another machine.
        await db.Work.Where(work => work.FinishedAt == null).ExecuteUpdateAsync(
            row => row.SetProperty(w => w.Owner, (string?)null).SetProperty(w => w.LeaseUntil, (DateTime?)null),
            cancellation);
        return await db.Work
            .Where(work => work.FinishedAt == null && work.StoppedAt == null && !goOn.Contains(work.Kind))
            .ExecuteUpdateAsync(
                row => row.SetProperty(w => w.StoppedAt, act.At).SetProperty(w => w.StopActId, act.Id), cancellation);
    }

    // Sign-in links that were used since would open again, so all are used up. Sessions end because every key that
    // protects them is revoked: the keys lie in each backup, and whoever has one could make a session of anybody. They
    // are not deleted, because what else they protect could never be read again. The stamps of the accounts end what a
    // process with its own copy of the keys would still let in. Tokens and badges that were withdrawn since would
    // count again, so all are withdrawn.
    private async Task ShutDoorsAsync(Act act, CancellationToken cancellation)
    {
        var (now, reason) = (act.At, act.Reason!);
        await db.ApiTokens.Where(token => token.WithdrawnAt == null).ExecuteUpdateAsync(
            row => row.SetProperty(token => token.WithdrawnAt, now).SetProperty(token => token.WithdrawnActId, act.Id),
            cancellation);
        await db.Badges.Where(badge => badge.WithdrawnAt == null).ExecuteUpdateAsync(
            row => row.SetProperty(badge => badge.WithdrawnAt, now).SetProperty(badge => badge.WithdrawnActId, act.Id),
            cancellation);
        await db.SignInLinks.Where(link => link.UsedAt == null)
            .ExecuteUpdateAsync(row => row.SetProperty(link => link.UsedAt, now), cancellation);
        foreach (var account in await db.Users.ToListAsync(cancellation))
        {
            account.SecurityStamp = Guid.NewGuid().ToString("N");
        }

        // The format of ASP.NET Core's key ring, "key management", for "all keys made before".
        db.Add(new DataProtectionKey
        {
            FriendlyName = $"revocation-{now.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture)}",
            Xml = new XElement(
                "revocation",
                new XAttribute("version", 1),
                new XElement("revocationDate", new DateTimeOffset(now)),
                new XElement("key", new XAttribute("id", "*")),
                new XElement("reason", reason)).ToString(SaveOptions.DisableFormatting),
        });
    }

    // Nobody is signed in any more, and an administrator may never have chosen a password.
    private async Task<List<FirstStart.PrintedLink>> LinksAsync(DateTime now, CancellationToken cancellation)
    {
        var administrators = await db.Users
            .Where(account => db.UserRoles.Any(link => link.UserId == account.Id
                && db.Roles.Any(role => role.Id == link.RoleId && role.Name == nameof(Role.Administrator))))
            .OrderBy(account => account.DisplayName)
            .ToListAsync(cancellation);
        List<FirstStart.PrintedLink> links = [];
        foreach (var account in administrators)
        {
            var (link, token) = SignInLink.For(account, now + LinkLasts);
            db.Add(link);
            links.Add(new(account.DisplayName, $"/sign-in/{token}"));
        }

        return links;
    }
}
