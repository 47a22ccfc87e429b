namespace Accession.Server.Hosting;

/// <summary>A command cannot be carried out; the message is the one sentence that it ends with.</summary>
internal class CommandRefusedException(string sentence, Exception? cause = null) : Exception(sentence, cause);
