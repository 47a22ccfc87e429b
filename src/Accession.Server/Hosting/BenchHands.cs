using System.Globalization;
using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Accession.Server.Hosting;

/// <summary>
/// Who works at a bench: whoever is signed in, or the holder of the badge that was scanned last. Each scan names the
/// badge it was made under by the key of that badge's scan, which the page knows before the server has answered; so a
/// queue of scans that waited for the network bears the right names, and a scan sent again the same one.
/// </summary>
public sealed class BenchHands(
    AccessionDb db, TakeUpWork takeUp, BadgeHolders holders, IOptions<BenchOptions> options, TimeProvider clock)
{
    /// <summary>The field of the scan line that names the badge.</summary>
    public const string Field = "hands";

    private const string CookieName = "accession-bench";
    private const string AgeHeader = "X-Scan-Age";

    // As long as a sign-in lasts.
    private static readonly TimeSpan OldestScan = TimeSpan.FromHours(14);

    /// <summary>Who works, and how a scan says so.</summary>
    /// <param name="By">Who works; null when that is not known until a badge is scanned.</param>
    /// <param name="Key">The key of the badge's scan; empty for whoever is signed in.</param>
    public sealed record Hands(Actor? By, string Key)
    {
        public bool IsByBadge => Key.Length > 0;

        public string? Id => By?.Id;
    }

    /// <summary>Who works when the page is opened: the badge of this browser while it counts.</summary>
    public async Task<Hands> OfPageAsync(HttpContext context, CancellationToken cancellation)
    {
        var signedIn = context.User.Actor();
        var key = context.Request.Cookies[CookieName] ?? "";
        var shift = await FindAsync(key, signedIn, cancellation);
        var holder = shift?.Covers(Now, options.Value.BadgeEndsAfter) == true
            ? await HolderAsync(shift, cancellation)
            : null;
        return holder is null ? new(signedIn, "") : new(holder, key);
    }

    /// <summary>In whose name a scan is done, or why in nobody's.</summary>
    /// <param name="context">The request.</param>
    /// <param name="key">What the scan says of its badge; empty for none.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<Outcome<Actor>> OfScanAsync(HttpContext context, string? key, CancellationToken cancellation)
    {
        var signedIn = context.User.Actor();
        if (string.IsNullOrEmpty(key))
        {
            return signedIn;
        }

        var shift = await FindAsync(key, signedIn, cancellation);
        var at = ScannedAt(context);
        if (shift is null || !shift.Covers(at, options.Value.BadgeEndsAfter)
            || await HolderAsync(shift, cancellation) is not { } holder)
        {
            return new Refusal(RefusalKind.NotAllowed, string.Create(CultureInfo.InvariantCulture,
                $"Nobody is at this bench: the badge was not taken, or was withdrawn, or it ended after "
                + $"{options.Value.BadgeEndsAfterMinutes} minutes without a scan. Scan a badge, or “hand back” to "
                + $"work as {signedIn.Name}, then scan this again."));
        }

        await NoteScanAsync(shift, at, cancellation);
        return holder;
    }

    /// <summary>Somebody takes up work by badge. The code stands in no answer.</summary>
    public async Task<(Hands Hands, Outcome<string> Outcome)> TakeUpAsync(
        HttpContext context, string code, CancellationToken cancellation)
    {
        var key = context.Door().RequestKey ?? Guid.NewGuid().ToString();
        var taken = await takeUp.RunAsync(
            new(code, key, ScannedAt(context), context.Request.Cookies[CookieName]), context.User.Actor(),
            cancellation);
        if (taken.IsRefused)
        {
            return (new(null, key), taken);
        }

        context.Response.Cookies.Append(CookieName, key, new CookieOptions
        {
            HttpOnly = true,
            IsEssential = true,
            SameSite = SameSiteMode.Strict,
            Secure = context.Request.IsHttps,
        });
        var shift = await FindAsync(key, context.User.Actor(), cancellation);
        return (new(shift is null ? null : await HolderAsync(shift, cancellation), key), taken);
    }

    /// <summary>Whoever is signed in works again; also when signing out.</summary>
    public async Task<Hands> HandBackAsync(HttpContext context, CancellationToken cancellation)
    {
        var signedIn = context.User.Actor();
        if (context.Request.Cookies[CookieName] is { Length: > 0 } key)
        {
            await db.BenchShifts.Where(s => s.SignedInId == signedIn.Id && s.Key == key && s.EndedAt == null)
                .ExecuteUpdateAsync(row => row.SetProperty(s => s.EndedAt, Now), cancellation);
            context.Response.Cookies.Delete(CookieName);
        }

        return new(signedIn, "");
    }

    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    // By its age, so that a wrong clock of the computer at the bench says nothing.
    private DateTime ScannedAt(HttpContext context) =>
        double.TryParse(
            context.Request.Headers[AgeHeader], NumberStyles.None, CultureInfo.InvariantCulture, out var age)
        && age <= OldestScan.TotalMilliseconds
            ? Now.AddMilliseconds(-age)
            : Now;

    private async Task<BenchShift?> FindAsync(string? key, Actor signedIn, CancellationToken cancellation) =>
        string.IsNullOrEmpty(key)
            ? null
            : await db.BenchShifts.AsNoTracking().Include(s => s.Badge).SingleOrDefaultAsync(
                s => s.SignedInId == signedIn.Id && s.Key == key && s.Badge.WithdrawnAt == null, cancellation);

    private Task<Actor?> HolderAsync(BenchShift shift, CancellationToken cancellation) =>
        holders.FindAsync(shift.Badge.AccountId, cancellation);

    // Not at each scan: that would be a second row to write.
    private async Task NoteScanAsync(BenchShift shift, DateTime at, CancellationToken cancellation)
    {
        if (at - shift.LastScanAt > BenchShift.ScanIsNotedEvery)
        {
            await db.BenchShifts.Where(s => s.Id == shift.Id && s.LastScanAt < at)
                .ExecuteUpdateAsync(row => row.SetProperty(s => s.LastScanAt, at), cancellation);
        }
    }
}
