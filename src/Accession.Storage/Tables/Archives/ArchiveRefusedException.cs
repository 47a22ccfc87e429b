namespace Accession.Storage.Tables.Archives;

/// <summary>An archive cannot be read, for a reason that a curator can pass on to its sender.</summary>
internal sealed class ArchiveRefusedException(string reason) : Exception(reason);
