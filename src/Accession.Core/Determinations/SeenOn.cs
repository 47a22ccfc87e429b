namespace Accession.Core.Determinations;

/// <summary>On what an opinion rests. One from an image is weaker than one from the sheet (common practice).</summary>
public enum SeenOn
{
    /// <summary>Not said.</summary>
    Unknown,

    /// <summary>The sheet in hand.</summary>
    Sheet,

    /// <summary>A picture of the sheet, or of the living plant.</summary>
    Image,

    /// <summary>Another sheet of the same gathering.</summary>
    Duplicate,
}
