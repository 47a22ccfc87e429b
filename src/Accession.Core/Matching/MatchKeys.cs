namespace Accession.Core.Matching;

/// <summary>Makes the keys under which gatherings and rows meet.</summary>
public static class MatchKeys
{
    private const int Most = 24;

    /// <summary>
    /// The keys of a signature: several where there are two persons or two numbers, none where nothing is known. Two
    /// gatherings that are found to be one always meet in at least one of them.
    /// </summary>
    /// <param name="signature">What is compared.</param>
    /// <param name="identities">What makes it this very record; <see cref="Identities.None"/> if nothing does.</param>
    public static IReadOnlyList<MatchKey> Of(in Signature signature, Identities identities)
    {
        ArgumentNullException.ThrowIfNull(identities);
        var keys = new Keys(signature.Day, DetailOf(signature));
        var (team, numbers) = (signature.Team, signature.Numbers);
        for (var n = 0; n < numbers.Count; n++)
        {
            var run = (n == 0 ? numbers.First : numbers.Second).Run;
            for (var p = 0; p < team.Count; p++)
            {
                keys.Add(MatchKeyKind.NameAndNumber, team[p].Sound, run);
            }

            keys.AddOfDay(MatchKeyKind.NumberAndDay, run);
        }

        for (var p = 0; p < team.Count; p++)
        {
            keys.AddOfDay(MatchKeyKind.NameAndDay, team[p].Sound);
        }

        var plant = signature.Plant;
        if (plant.Genus != 0 && plant.Species != 0)
        {
            var region = signature.Place.County != 0 ? signature.Place.County : signature.Place.State;
            if (team.Count > 0)
            {
                keys.Add(MatchKeyKind.NameAndPlant, team[0].Sound, ((ulong)plant.Species << 32) | plant.Genus);
            }

            keys.AddOfDay(MatchKeyKind.PlantAndDay, ((ulong)plant.Species << 32) | ((ulong)region << 16) | plant.Genus);
        }

        keys.AddIdentity(MatchKeyKind.CatalogNumber, identities.CatalogNumberKey);
        keys.AddIdentity(MatchKeyKind.Occurrence, identities.OccurrenceKey);
        keys.AddIdentity(MatchKeyKind.Row, identities.RowKey);
        return keys.All;
    }

    // The plant without its rank below the species: what differs in it is never one gathering without a number, while
    // a place is often written in two ways.
    private static int DetailOf(in Signature signature) =>
        (int)(StableHash.With(signature.Plant.Genus, signature.Plant.Species) >> 33);

    private sealed class Keys(int day, int detail)
    {
        public List<MatchKey> All { get; } = new(8);

        public void Add(MatchKeyKind kind, ulong one, ulong other)
        {
            var value = StableHash.With(StableHash.With((ulong)kind, one), other);
            var key = new MatchKey(unchecked((long)value), kind, day, detail);
            if (All.Count < Most && !All.Contains(key))
            {
                All.Add(key);
            }
        }

        public void AddOfDay(MatchKeyKind kind, ulong one)
        {
            if (day != 0)
            {
                Add(kind, one, (ulong)day);
            }
        }

        public void AddIdentity(MatchKeyKind kind, ulong identity)
        {
            if (identity != 0)
            {
                Add(kind, identity, 0);
            }
        }
    }
}
