namespace Accession.Core.Standards.DarwinCore;

/// <summary>
/// What becomes of a column when the place of a specimen is protected. Whatever is hidden or blurred is said in
/// informationWithheld and dataGeneralizations: an empty cell alone explains nothing.
/// </summary>
public enum WhenProtected
{
    /// <summary>Shown as held: it does not say where.</summary>
    Unchanged,

    /// <summary>Shown less exactly: the public wording, or the grid cell in place of the point.</summary>
    Generalised,

    /// <summary>Left empty: it says, or its words may say, where.</summary>
    Withheld,
}
