namespace Accession.Storage.Databases;

/// <summary>
/// Marks the few queries that nearly every request asks, by <c>TagWith</c>. A database that takes longer to prepare
/// such a statement than to carry it out keeps it prepared.
/// </summary>
public static class AskedOften
{
    /// <summary>What the statement says of itself in its first line.</summary>
    public const string Tag = "asked often";

    /// <summary>Whether a statement says so.</summary>
    public static bool Is(string statement) => statement.StartsWith("-- " + Tag, StringComparison.Ordinal);
}
