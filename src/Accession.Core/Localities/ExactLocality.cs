namespace Accession.Core.Localities;

/// <summary>tmp</summary>
public sealed class ExactLocality
{
    private ExactLocality()
    {
    }

    /// <summary>The gathering.</summary>
    public long GatheringId { get; private set; }
}
