namespace Accession.Core.Localities;

/// <summary>A unit in which heights and distances are written.</summary>
public enum LengthUnit
{
    /// <summary>Metres.</summary>
    Metre,

    /// <summary>International feet of 0.3048 m.</summary>
    Foot,

    /// <summary>Kilometres.</summary>
    Kilometre,

    /// <summary>Statute miles of 1609.344 m.</summary>
    Mile,
}
