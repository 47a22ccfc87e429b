using Accession.Core.Outcomes;

namespace Accession.Core.Specimens;

/// <summary>Under which name a specimen lies in the cabinet, from an act on.</summary>
public sealed class FiledAsEntry
{
    private FiledAsEntry()
    {
    }

    internal FiledAsEntry(string name, Act act) => (Name, Act) = (name, act);

    /// <summary>The key in the database.</summary>
    public long Id { get; private set; }

    /// <summary>The specimen.</summary>
    public long SpecimenId { get; private set; }

    /// <summary>The name on its folder, to the letter.</summary>
    public string Name { get; private set; } = "";

    /// <summary>The act: who and when.</summary>
    public long ActId { get; private set; }

    /// <summary>The act: who and when.</summary>
    public Act Act { get; private set; } = null!;
}
