using Accession.Core.Outcomes;
using Accession.Core.People;
using Accession.Storage;

namespace Accession.Server.Tracking;

/// <summary>
/// Says that two collectors on record are one, or takes it back. What goes over is given up in the one and received in
/// the other by the same act, so that every spelling and every tie says where it went.
/// </summary>
public sealed class MergePersons(AccessionDb db, PersonInHand hand, SharedSpellings shared, FoundAnew found)
{
    /// <summary>Merges a collector into another; answers the name of the other.</summary>
    /// <param name="id">The collector whose address leads to the other from now on.</param>
    /// <param name="intoId">The collector that both are.</param>
    /// <param name="how">How the curator knows.</param>
    /// <param name="door">Who asks.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<Outcome<string>> RunAsync(
        long id, long intoId, string? how, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "merge two collectors", how);
        return hand.OnAsync(
            intoId, door, act,
            async into => await hand.FindAsync(id, cancellation) is { } person
                ? await HandOverAsync(person.MergeInto(into, act), into, act, cancellation)
                : [new(RefusalKind.Invalid, "Choose the collector who is the same person.")],
            cancellation);
    }

    /// <summary>Takes a merging back; answers the name of the person from whom it is taken.</summary>
    /// <param name="id">The collector who was merged.</param>
    /// <param name="fromId">The collector into whom.</param>
    /// <param name="why">Why.</param>
    /// <param name="door">Who asks.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<Outcome<string>> TakeBackAsync(
        long id, long fromId, string? why, Door door, CancellationToken cancellation)
    {
        var act = hand.ActOf(door, "take the merging of two collectors back", why);
        return hand.OnAsync(
            fromId, door, act,
            async from => await hand.FindAsync(id, cancellation) is { } person
                ? await HandOverAsync(person.PartFrom(from, act), person, act, cancellation)
                : [new(RefusalKind.Invalid, "Choose the collector who is somebody else after all.")],
            cancellation);
    }

    private async Task<List<Refusal>> HandOverAsync(
        Outcome<HandedOver> given, Person to, Act act, CancellationToken cancellation)
    {
        if (given.IsRefused)
        {
            return [.. given.Refusals];
        }

        // Given up first: the store keeps a spelling and an account from being two persons' even for a moment.
        await db.SaveChangesAsync(cancellation);
        var written = to.Written.Union(given.Value.Spellings).ToList();
        var places = await shared.PlacesAsync(to.Id, to.Years, written, cancellation);
        if (places.IsRefused)
        {
            return [.. places.Refusals];
        }

        to.Receive(given.Value, places.Value, act);
        await found.WantAsync(written, act, cancellation);
        return [];
    }
}
