namespace Accession.Server.Shared;

/// <summary>The end of a sentence whose last word may bear a stop of its own: an author's "L.", a "jr.".</summary>
internal static class FullStop
{
    public static string WithStop(this string text) => text.EndsWith('.') ? text : text + ".";
}
