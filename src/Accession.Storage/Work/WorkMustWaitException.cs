namespace Accession.Storage.Work;

/// <summary>Other work has to be done first: this one is put back, and the attempt does not count.</summary>
public sealed class WorkMustWaitException(string why) : Exception(why);
