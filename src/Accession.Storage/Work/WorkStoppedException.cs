namespace Accession.Storage.Work;

/// <summary>Somebody asked to stop the work: end here, between two steps, where nothing is half done.</summary>
public sealed class WorkStoppedException(long id) : Exception($"Work {id} was to stop.");
