using Accession.Core.Outcomes;
using Accession.Storage;
using Accession.Storage.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// Makes a token for a program of the person who asks, or for a device. The token itself is told once, and stands
/// neither in the register nor in the act.
/// </summary>
public sealed class MakeToken(AccessionDb db, TimeProvider clock)
{
    private const int LongestDays = 366;

    /// <param name="ForDevice">Whether a device bears it; only an administrator makes such a one.</param>
    /// <param name="Days">How many days it is in force; 1 to 366.</param>
    public sealed record Request(string? Name, bool ForDevice, IReadOnlyList<Right> Rights, int Days);

    /// <param name="Secret">The token; null where it was told before and nobody knows it any more.</param>
    public sealed record Made(string Name, DateTime ExpiresAt, string? Secret);

    private sealed record Kept(string Name, DateTime ExpiresAt, string Hash);

    public async Task<Outcome<Made>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var secret = ApiToken.NewSecret();
        var act = Act.Of(
            door, request.ForDevice ? "let a device in" : "make a token", clock.GetUtcNow().UtcDateTime,
            request.Name);
        var kept = await db.CarryOutAsync(
            door, act, () => Task.FromResult(Make(request, secret, door, act)), cancellation);
        if (kept.IsRefused)
        {
            return kept.Refusals.ToList();
        }

        var isNew = kept.Value.Hash == SignInLink.Hash(secret);
        return new Made(kept.Value.Name, kept.Value.ExpiresAt, isNew ? secret : null);
    }

    private Outcome<Kept> Make(Request request, string secret, Door door, Act act)
    {
        var name = request.Name?.Trim() ?? "";
        if (request.ForDevice && !door.By.Roles.Contains(Role.Administrator))
        {
            return new Refusal(RefusalKind.NotAllowed, "Only an administrator lets a device in.");
        }

        if (name.Length is 0 or > 100)
        {
            return new Refusal(RefusalKind.Invalid, request.ForDevice
                ? "Write what the device is called, in at most 100 characters: it stands in the trail."
                : "Write what the program is called, in at most 100 characters.");
        }

        if (request.Days is < 1 or > LongestDays)
        {
            return new Refusal(RefusalKind.Invalid, $"Choose for how many days, 1 to {LongestDays}.");
        }

        if (request.Rights.Count == 0 || request.Rights.Any(right => !Enum.IsDefined(right)))
        {
            return new Refusal(RefusalKind.Invalid, "Choose at least one thing that it may do.");
        }

        if (request.ForDevice && !request.Rights.All(right => right.IsForDevices()))
        {
            return new Refusal(RefusalKind.NotAllowed, "A device may not do this: it is a person's.");
        }

        if (!request.ForDevice && request.Rights.Any(right => !right.IsFor(door.By.Roles)))
        {
            return new Refusal(RefusalKind.NotAllowed, "A program may do no more than you.");
        }

        var token = ApiToken.Of(
            secret, name, request.ForDevice ? null : door.By.Id, request.Rights, act.At.AddDays(request.Days), act);
        db.Add(token);
        return new Kept(name, token.ExpiresAt, token.TokenHash);
    }
}
