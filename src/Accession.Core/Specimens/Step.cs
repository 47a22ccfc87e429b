namespace Accession.Core.Specimens;

/// <summary>What has to be done to a part before it is at home.</summary>
public enum Step
{
    /// <summary>The number on the sheet was scanned back against its record.</summary>
    Numbered,

    /// <summary>Cleared of pests: by a verdict, a house rule or a waiver.</summary>
    Treated,

    /// <summary>Mounted on its sheet.</summary>
    Mounted,

    /// <summary>The label is on it.</summary>
    Labelled,

    /// <summary>Photographed.</summary>
    Imaged,

    /// <summary>Filed in its cabinet.</summary>
    Filed,
}

/// <summary>What an entry says of a step.</summary>
public enum StepMark
{
    /// <summary>It was done.</summary>
    Done,

    /// <summary>Somebody decided that it need not be done.</summary>
    Waived,

    /// <summary>What was done counts no more; it is to be done again.</summary>
    NeededAgain,
}
