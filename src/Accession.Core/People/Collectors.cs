using Accession.Core.Outcomes;

namespace Accession.Core.People;

/// <summary>
/// Who collected, as a label or a column says it: persons in the order that matters (the one whose number it is comes
/// first), groups, and what else stood in the text. Reading proposes; the verbatim text stays beside it.
/// </summary>
/// <param name="Persons">
/// The persons, the numbering collector first; one who is listed twice stands once. Empty when no person is named.
/// </param>
/// <param name="EtAl">Whether the text says that there were others without naming them.</param>
/// <param name="Group">
/// A class, crew, office or institution that is named as a collector, as written; several are joined by a semicolon.
/// Empty when there is none. A group is never split into persons.
/// </param>
/// <param name="NumberInText">
/// A collector's number that stood inside the text, as written; empty when there is none, and the first of several.
/// </param>
/// <param name="IsAnonymous">
/// Whether the text states that nobody is known: Anon., s.coll., "collector unknown". A blank does not state that.
/// </param>
public sealed record Collectors(
    IReadOnlyList<PersonName> Persons,
    bool EtAl,
    string Group = "",
    string NumberInText = "",
    bool IsAnonymous = false)
{
    /// <summary>
    /// Reads names of collectors in any of the usual spellings. Takes time in proportion to the length of the text
    /// and never throws.
    /// </summary>
    /// <param name="verbatim">The text as written; null counts as blank.</param>
    /// <returns>
    /// The collectors; a question where the text allows two meanings; Unreadable for a blank text, which says nothing
    /// at all, and for one without any letter that could be a name.
    /// </returns>
    public static Reading<Collectors> Read(string? verbatim)
    {
        verbatim ??= "";
        return string.IsNullOrWhiteSpace(verbatim)
            ? Reading<Collectors>.Stopped(verbatim, 1, "No collector was written; write s.coll. if none is known.")
            : new CollectorsReader(verbatim).Read();
    }

    /// <summary>
    /// The family name of the first person in a text, folded, by which gatherings are looked up; empty where
    /// none is read.
    /// </summary>
    /// <param name="written">One collector or several, as written.</param>
    public static string FamilyKeyOf(string? written) =>
        Read(written) is { IsRead: true, Value.Persons: [var one, ..] } ? one.FamilyKey : "";

    /// <summary>The persons in the order of speech, separated by bars, as Darwin Core recommends for lists.</summary>
    public override string ToString()
    {
        var names = Persons.Select(p => p.ToString()).Append(Group).Append(EtAl ? "et al." : "");
        return string.Join(" | ", names.Where(n => n.Length > 0));
    }
}
