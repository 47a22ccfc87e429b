namespace Accession.Core.Standards.Eml;

/// <summary>
/// The licences under which a data set may be published: the three that GBIF accepts (from memory of its data publisher
/// agreement). Their texts and addresses are in <see cref="LicenceTexts"/>.
/// </summary>
public enum Licence
{
    /// <summary>CC0 1.0: everybody may do anything.</summary>
    Cc0,

    /// <summary>CC BY 4.0: everybody may do anything who names the source.</summary>
    CcBy,

    /// <summary>CC BY-NC 4.0: everybody may do anything who names the source and takes no money for it.</summary>
    CcByNc,
}
