using Accession.Core.Outcomes;

namespace Accession.Core.FreezerLoads;

/// <summary>A freezer in which loads are treated.</summary>
public sealed class Freezer
{
    /// <summary>The most characters of its name and of its place.</summary>
    public const int LongestName = 200;

    private Freezer()
    {
    }

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>Its name, as on its door; no two have the same.</summary>
    public string Name { get; private set; } = "";

    /// <summary>Where it stands.</summary>
    public string Place { get; private set; } = "";

    /// <summary>
    /// Whether it defrosts itself, so that its air is warm now and then. Some ask for freezers that do not (NPS
    /// Conserve O Gram 3/6, 1994); it is shown beside each load and forbids nothing.
    /// </summary>
    public bool DefrostsItself { get; private set; }

    /// <summary>The act that wrote it down.</summary>
    public long ActId { get; private set; }

    /// <summary>The act that wrote it down.</summary>
    public Act Act { get; private set; } = null!;

    /// <summary>Writes a freezer down.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="place">Where it stands.</param>
    /// <param name="defrostsItself">Whether it defrosts itself.</param>
    /// <param name="act">The act.</param>
    public static Outcome<Freezer> Named(string? name, string? place, bool defrostsItself, Act act)
    {
        var (called, stands) = ((name ?? "").Trim(), (place ?? "").Trim());
        return called.Length is 0 or > LongestName || stands.Length is 0 or > LongestName
            ? new Refusal(RefusalKind.Invalid,
                $"Write the freezer's name and where it stands, in at most {LongestName} characters each.")
            : new Freezer { Name = called, Place = stands, DefrostsItself = defrostsItself, Act = act };
    }
}
