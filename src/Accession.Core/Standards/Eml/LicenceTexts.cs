namespace Accession.Core.Standards.Eml;

/// <summary>How a licence is named and found: Creative Commons titles and addresses, SPDX identifiers.</summary>
public static class LicenceTexts
{
    /// <summary>The title that Creative Commons gives the licence.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is none of the three.</exception>
    public static string Title(this Licence licence) => licence switch
    {
        Licence.Cc0 => "CC0 1.0 Universal",
        Licence.CcBy => "Creative Commons Attribution 4.0 International",
        Licence.CcByNc => "Creative Commons Attribution-NonCommercial 4.0 International",
        _ => throw new ArgumentOutOfRangeException(nameof(licence), licence, "There is no such licence."),
    };

    /// <summary>
    /// The address of the legal text, in the form of the examples of the Darwin Core term license: with http, which is
    /// what aggregators compare.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is none of the three.</exception>
    public static string Address(this Licence licence) => licence switch
    {
        Licence.Cc0 => "http://creativecommons.org/publicdomain/zero/1.0/legalcode",
        Licence.CcBy => "http://creativecommons.org/licenses/by/4.0/legalcode",
        Licence.CcByNc => "http://creativecommons.org/licenses/by-nc/4.0/legalcode",
        _ => throw new ArgumentOutOfRangeException(nameof(licence), licence, "There is no such licence."),
    };

    /// <summary>The identifier in the SPDX licence list.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is none of the three.</exception>
    public static string Spdx(this Licence licence) => licence switch
    {
        Licence.Cc0 => "CC0-1.0",
        Licence.CcBy => "CC-BY-4.0",
        Licence.CcByNc => "CC-BY-NC-4.0",
        _ => throw new ArgumentOutOfRangeException(nameof(licence), licence, "There is no such licence."),
    };
}
