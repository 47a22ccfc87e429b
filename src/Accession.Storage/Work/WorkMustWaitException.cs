namespace Accession.Storage.Work;

/// <summary>
/// It cannot be done yet, because of other work or of the world outside: it is put back, and the attempt does not
/// count.
/// </summary>
public sealed class WorkMustWaitException(string why, DateTime? until = null) : Exception(why)
{
    /// <summary>Before this it makes no sense to begin it again; null when any sweep may.</summary>
    public DateTime? Until { get; } = until;
}
