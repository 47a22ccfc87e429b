namespace Accession.Core.Accessions;

/// <summary>What a permit is.</summary>
public enum PermitKind
{
    /// <summary>An authority's permission to collect.</summary>
    Collecting,

    /// <summary>The consent of whoever owns the land.</summary>
    Landowner,

    /// <summary>Permission to move viable parts of regulated weeds.</summary>
    NoxiousWeed,

    /// <summary>Permission to bring plants into the country.</summary>
    Import,

    /// <summary>Anything else; the conditions say what.</summary>
    Other,
}
