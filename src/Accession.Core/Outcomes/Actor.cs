namespace Accession.Core.Outcomes;

/// <summary>Who is acting: a person with an account, or the program itself.</summary>
/// <param name="Id">The account, or null for the program.</param>
/// <param name="Name">The name that stands in the trail for good, as it was on the day.</param>
/// <param name="Roles">What this person does in the herbarium.</param>
public sealed record Actor(string? Id, string Name, IReadOnlySet<Role> Roles)
{
    /// <summary>The program itself: work that nobody pressed a button for, and commands at the console.</summary>
    public static Actor System { get; } =
        new(null, "Accession", new HashSet<Role> { Role.Administrator, Role.Curator, Role.Technician });

    /// <summary>Whether this person may see the exact place of a protected plant: curators and the program.</summary>
    public bool MaySeeExactLocalities => Roles.Contains(Role.Curator);

    /// <summary>
    /// Whether this person may see the papers of batches, which count as exact like their rows: they may name
    /// landowners and places.
    /// </summary>
    public bool MaySeePapers => Roles.Contains(Role.Curator);

    /// <summary>Whether this person works in the herbarium.</summary>
    public bool WorksHere => Roles.Overlaps([Role.Administrator, Role.Curator, Role.Technician]);

    /// <summary>
    /// Whether this person may see every sheet of the register, as everyone may know it. Weed officers see those of
    /// their counties, collectors their own.
    /// </summary>
    public bool SeesWholeRegister => WorksHere || Roles.Contains(Role.Determiner);
}
