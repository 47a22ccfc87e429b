using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Storage;

namespace Accession.Server.Tracking;

/// <summary>
/// Says that some of a collector's spellings are somebody else, and puts that person on record. The account stays;
/// merging the new person into the old one takes it back.
/// </summary>
public sealed class SplitPerson(AccessionDb db, PersonInHand hand, SharedSpellings shared, FoundAnew found)
{
    public sealed record Request(long Id, string? Name, IReadOnlyList<string> Spellings, string? How);

    /// <summary>Splits; answers the number in the new person's address.</summary>
    public async Task<Outcome<long>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "say that one collector is two", request.How);
        return await db.CarryOutAsync<long>(
            door, act,
            async () =>
            {
                if (PersonInHand.WhyNot(door) is { } notAllowed)
                {
                    return notAllowed;
                }

                var person = await hand.FindAsync(request.Id, cancellation);
                if (person is not { MergedIntoId: null })
                {
                    return new Refusal(RefusalKind.NotFound, "That collector is not on record any more; look again.");
                }

                var given = person.SplitOff([.. request.Spellings.Distinct()], act);
                var other = Person.OnRecord(request.Name, act);
                if (given.IsRefused || other.IsRefused)
                {
                    return given.Refusals.Concat(other.Refusals).ToList();
                }

                db.Add(other.Value);
                await db.SaveChangesAsync(cancellation);
                var written = given.Value.Spellings;
                var places = await shared.PlacesAsync(other.Value.Id, other.Value.Years, written, cancellation);
                if (places.IsRefused)
                {
                    return places.Refusals.ToList();
                }

                other.Value.Receive(given.Value, places.Value, act);
                await found.WantAsync(written, act, cancellation);
                return other.Value.Id;
            },
            cancellation);
    }
}
