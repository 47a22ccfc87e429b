using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>
/// Puts a collector on record, says which spellings of the register are this person, and whose account it is. All of it
/// is for curators: an account sees the sheets of the person it is tied to.
/// </summary>
public sealed class RecordPerson(AccessionDb db, PersonInHand hand, SharedSpellings shared, FoundAnew found)
{
    /// <summary>The act of tying, as it stands in the trail.</summary>
    public const string TieWhat = "tie an account to a collector";

    /// <summary>Puts a person on record; answers the number in the person's address.</summary>
    public async Task<Outcome<long>> RunAsync(string? name, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "put a collector on record");
        return await db.CarryOutAsync(
            door, act,
            async () =>
            {
                if (PersonInHand.WhyNot(door) is { } refusal)
                {
                    return refusal;
                }

                var person = Person.OnRecord(name, act);
                if (person.IsRefused)
                {
                    return person.Refusals.ToList();
                }

                db.Add(person.Value);
                await db.SaveChangesAsync(cancellation);
                return (Outcome<long>)person.Value.Id;
            },
            cancellation);
    }

    /// <summary>Says that spellings are this person.</summary>
    public Task<Outcome<string>> KnowAsync(
        long id, IReadOnlyList<string> spellings, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "say which spellings are one collector");
        return hand.OnAsync(
            id, door, act,
            async person =>
            {
                if (spellings.Count == 0)
                {
                    return [new(RefusalKind.Invalid, "Choose at least one spelling.")];
                }

                var places = await shared.PlacesAsync(person.Id, person.Years, spellings, cancellation);
                List<Refusal> refusals = places.IsRefused ? [.. places.Refusals] :
                [
                    .. spellings.Distinct()
                        .Select(written => person.KnowAs(written, act, places.Value.GetValueOrDefault(written)))
                        .OfType<Refusal>(),
                ];
                if (refusals is [])
                {
                    await found.WantAsync([.. person.Written], act, cancellation);
                }

                return refusals;
            },
            cancellation);
    }

    /// <summary>Says that a spelling is not this person after all.</summary>
    public Task<Outcome<string>> KnowNoLongerAsync(
        long id, string? spelling, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "take a spelling of a collector back");
        return hand.OnAsync(
            id, door, act,
            async person =>
            {
                if (person.KnowNoLongerAs(spelling ?? "", act) is { } refusal)
                {
                    return [refusal];
                }

                await found.WantAsync([spelling!], act, cancellation);
                return [];
            },
            cancellation);
    }

    /// <summary>Ties the account of a collector to the person, with how the curator knows.</summary>
    public Task<Outcome<string>> TieAsync(
        long id, string? accountId, string? how, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, TieWhat, how);
        return hand.OnAsync(
            id, door, act,
            async person =>
            {
                var isCollectors = await db.Users.AnyAsync(
                    user => user.Id == accountId && user.ClosedAt == null
                        && db.UserRoles.Any(link => link.UserId == user.Id
                            && db.Roles.Any(r => r.Id == link.RoleId && r.Name == nameof(Role.Collector))),
                    cancellation);
                if (!isCollectors)
                {
                    return [new(RefusalKind.Invalid, "Choose the open account of a collector.")];
                }

                if (await db.AccountTies.AnyAsync(
                    tie => tie.AccountId == accountId && tie.EndedActId == null && tie.PersonId != id, cancellation))
                {
                    return
                    [
                        new(RefusalKind.Conflict, "That account is another collector's. Take it away there first."),
                    ];
                }

                return person.TieTo(accountId!, act) is { } refusal ? [refusal] : [];
            },
            cancellation);
    }

    /// <summary>Takes the account away again.</summary>
    public Task<Outcome<string>> UntieAsync(long id, string? why, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "take an account away from a collector", why);
        return hand.OnAsync(id, door, act, PersonInHand.One(person => person.Untie(act)), cancellation);
    }
}
