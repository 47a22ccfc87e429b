namespace Accession.Storage.Databases;

/// <summary>
/// The tables that receiving writes. Laid over by temporary ones of the same name, they let a list be received on a
/// connection that stores nothing: what is received, and what is read of earlier lists of its source, lies in the
/// temporary tables, which the connection takes with it. All else is read from the register itself.
/// </summary>
internal static class LaidOver
{
    private const string BatchesOfSource = "SELECT id FROM {0}batch WHERE source_id = {1}";

    // Copied are the rows of the source, so that a list is compared with its earlier ones. What is staged for matching
    // is staged anew.
    private static readonly (string Name, bool HasKey, string? Copied)[] Layers =
    [
        ("source", true, "id = {1}"),
        ("act", true, "id IN (SELECT act_id FROM {0}batch WHERE source_id = {1} UNION SELECT act_id "
            + $"FROM {{0}}received_list WHERE batch_id IN ({BatchesOfSource}))"),
        ("work", true, "finished_at IS NULL"),
        ("row_problem", true, $"batch_id IN ({BatchesOfSource})"),
        ("batch_row", true, $"batch_id IN ({BatchesOfSource})"),
        ("received_list", true, $"batch_id IN ({BatchesOfSource})"),
        ("batch", true, "source_id = {1}"),
        ("found_member", true, null),
        ("row_key", false, null),
        ("row_signature", false, null),
        ("row_record", false, null),
    ];

    /// <summary>A table to lay over.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="HasKey">
    /// Whether its rows get keys in turn: those of the temporary table go on behind those of the register, so that no
    /// two rows are taken for one.
    /// </param>
    /// <param name="Copied">Which rows are copied, as a condition; null for none.</param>
    internal sealed record Layer(string Name, bool HasKey, string? Copied);

    /// <summary>The tables, and what is copied into each.</summary>
    /// <param name="own">What stands before the name of a table of the register itself, or nothing.</param>
    /// <param name="sourceId">The source whose lists are copied; null for none.</param>
    public static IEnumerable<Layer> Of(string own, long? sourceId) => Layers.Select(layer => new Layer(
        layer.Name, layer.HasKey,
        layer.Copied is { } copied ? string.Format(
            System.Globalization.CultureInfo.InvariantCulture, copied, own, sourceId ?? 0) : null));
}
