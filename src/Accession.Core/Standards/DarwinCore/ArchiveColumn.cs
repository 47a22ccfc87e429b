namespace Accession.Core.Standards.DarwinCore;

/// <summary>A column of a file of an archive.</summary>
/// <param name="Value">What we put there, and the key by which a query binds an expression to it.</param>
/// <param name="Term">
/// What the column means by the standard; null in the first column of an extension, which only links a line to the
/// core.
/// </param>
/// <param name="WhenProtected">What becomes of it when the place is protected. The default is unchanged.</param>
public sealed record ArchiveColumn(
    PublishedValue Value, Term? Term, WhenProtected WhenProtected = WhenProtected.Unchanged)
{
    /// <summary>The heading in the first line of the file, for people; programs go by <c>meta.xml</c>.</summary>
    public string Heading => Term?.Name ?? "coreid";
}
