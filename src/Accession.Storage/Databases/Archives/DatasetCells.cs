namespace Accession.Storage.Databases.Archives;

/// <summary>The cells that are the same in every line of an archive because they belong to the data set.</summary>
/// <param name="License">The address of the licence.</param>
/// <param name="InstitutionCode">The code of the institution that has the herbarium.</param>
/// <param name="CollectionCode">The acronym of the herbarium.</param>
public sealed record DatasetCells(string License, string InstitutionCode, string CollectionCode);
