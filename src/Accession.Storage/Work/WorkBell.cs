namespace Accession.Storage.Work;

/// <summary>Rings after work was committed, so that it starts at once and not at the next sweep.</summary>
public sealed class WorkBell
{
    /// <summary>Raised with the key of each piece of work that was committed.</summary>
    public event Action<long>? Rung;

    internal void Ring(IEnumerable<long> workIds)
    {
        foreach (var id in workIds.ToList())
        {
            Rung?.Invoke(id);
        }
    }
}
