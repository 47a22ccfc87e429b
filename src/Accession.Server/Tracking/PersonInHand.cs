using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Storage;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Tracking;

/// <summary>One collector in a curator's hands: what everything that is said of a person has in common.</summary>
public sealed class PersonInHand(AccessionDb db, TimeProvider clock)
{
    /// <summary>Why somebody may say nothing of a person; null for a curator.</summary>
    public static Refusal? WhyNot(Door door) => door.By.Roles.Contains(Role.Curator)
        ? null
        : new(RefusalKind.NotAllowed, "Who a collector is, is for curators to say.");

    /// <summary>A verb that cannot wait for anything.</summary>
    public static Func<Person, Task<List<Refusal>>> One(Func<Person, Refusal?> verb) =>
        person => Task.FromResult<List<Refusal>>(verb(person) is { } refusal ? [refusal] : []);

    public Act ActOf(Door door, string what, string? reason = null) =>
        Act.Of(door, what, clock.GetUtcNow().UtcDateTime, reason);

    /// <summary>A person with everything said of them; null when there is none.</summary>
    public Task<Person?> FindAsync(long id, CancellationToken cancellation) =>
        db.Persons.AsSplitQuery().SingleOrDefaultAsync(p => p.Id == id, cancellation);

    /// <summary>Says something of a person in one act; answers the person's name.</summary>
    public Task<Outcome<string>> OnAsync(
        long id, Door door, Act act, Func<Person, Task<List<Refusal>>> verb, CancellationToken cancellation) =>
        db.CarryOutAsync<string>(
            door, act,
            async () =>
            {
                if (WhyNot(door) is { } notAllowed)
                {
                    return notAllowed;
                }

                var person = await FindAsync(id, cancellation);
                if (person is null)
                {
                    return new Refusal(RefusalKind.NotFound, "That collector is not on record.");
                }

                if (person.MergedIntoId is not null)
                {
                    return new Refusal(RefusalKind.Conflict,
                        $"{person.Name} was merged into another collector meanwhile; look again.");
                }

                var refusals = await verb(person);
                return refusals is [] ? person.Name : refusals;
            },
            cancellation);
}
