using Accession.Core.People;

namespace Accession.Evaluation;

/// <summary>A person as the file wants it.</summary>
internal sealed record LabelledPerson(string? Family, string? Given, string? Particle, string? Second, string? Suffix);

/// <summary>
/// A text of collectors with the persons in it. Compared are the persons in their order, each part apart, without
/// regard to case, stops and spaces; and whether others are mentioned.
/// </summary>
internal sealed record LabelledCollectors(string? Raw, IReadOnlyList<LabelledPerson>? Persons, bool EtAl) : ILabelled
{
    /// <inheritdoc/>
    public string Wanted() => Form(
        (Persons ?? []).Select(p => Person(p.Family, p.Given, p.Particle, p.Second, p.Suffix)),
        EtAl);

    /// <inheritdoc/>
    public string Answer()
    {
        var reading = Collectors.Read(Raw);
        return reading.IsRead
            ? Form(
                reading.Value.Persons.Select(p => Person(p.Family, p.Given, p.Particle, p.Second, p.Suffix)),
                reading.Value.EtAl)
            : Form([], false);
    }

    private static string Form(IEnumerable<string> persons, bool etAl) =>
        string.Join(" | ", etAl ? persons.Append("et al.") : persons);

    private static string Person(params ReadOnlySpan<string?> parts)
    {
        var forms = new List<string>(parts.Length);
        foreach (var part in parts)
        {
            forms.Add(string.Concat((part ?? "").Where(c => c is not ('.' or ' '))).ToLowerInvariant());
        }

        return string.Join(" · ", forms);
    }
}
