namespace Accession.Storage.Tables;

/// <summary>What a file is by its content. Names and endings are what people make of them.</summary>
internal enum FileKind
{
    Text,
    Workbook,

    /// <summary>A zip that is no document of an office program: a Darwin Core archive, if anything.</summary>
    Archive,
    Other,
}
