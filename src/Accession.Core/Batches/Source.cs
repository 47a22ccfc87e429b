namespace Accession.Core.Batches;

/// <summary>Whoever sends lists of vouchers: a collector, a project, another herbarium.</summary>
public sealed class Source
{
    private Source()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The name as the curator writes it.</summary>
    public string Name { get; private set; } = "";

    /// <summary>The name folded for comparing; no two sources have the same.</summary>
    public string FoldedName { get; private set; } = "";

    /// <summary>How the columns of this source's lists were matched last time: heading to field, as JSON.</summary>
    public string RememberedMatch { get; private set; } = "{}";

    /// <summary>
    /// The mail address at which its collector answers; null while nobody wrote one. It is personal, and for curators
    /// only.
    /// </summary>
    public string? CollectorAddress { get; private set; }

    /// <summary>A source that was not known before.</summary>
    /// <param name="name">The name as the curator writes it; not blank.</param>
    public static Source Named(string name) => new() { Name = Tidy(name), FoldedName = Fold(name) };

    /// <summary>The name as it is compared: case, accents and spacing carry no meaning.</summary>
    /// <param name="name">The name as written.</param>
    public static string Fold(string name) => Texts.Folding.Fold(Tidy(name));

    /// <summary>Remembers how this source's columns were matched.</summary>
    /// <param name="json">Heading to field, as JSON.</param>
    public void Remember(string json) => RememberedMatch = json;

    /// <summary>Remembers where this source's collector is written to.</summary>
    /// <param name="address">One mail address.</param>
    public void AnswersAt(string address) => CollectorAddress = address;

    private static string Tidy(string name) =>
        string.Join(' ', name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
