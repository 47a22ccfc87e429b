namespace Accession.Storage.Work;

/// <summary>The lease ran out and another process has the work: stop, it is theirs now.</summary>
public sealed class WorkLostException(long id) : Exception($"Work {id} was taken over by another process.");
