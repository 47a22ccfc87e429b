namespace Accession.Storage.Work;

/// <summary>Rings when work can begin, so that it starts at once and not at the next sweep.</summary>
public sealed class WorkBell
{
    /// <summary>Raised with the key of each piece of work that was committed, or waits no longer.</summary>
    public event Action<long>? Rung;

    /// <summary>Tells whoever hands work over.</summary>
    public void Ring(IEnumerable<long> workIds)
    {
        foreach (var id in workIds.ToList())
        {
            Rung?.Invoke(id);
        }
    }
}
