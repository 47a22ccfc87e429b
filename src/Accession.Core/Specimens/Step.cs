namespace Accession.Core.Specimens;

/// <summary>What has to be done to a part before it is at home.</summary>
public enum Step
{
    /// <summary>The number on the sheet was scanned back against its record.</summary>
    Numbered,
}
