namespace Accession.Storage.Tables;

/// <summary>What a file is by its content. Names and endings are what people make of them.</summary>
internal enum FileKind
{
    Text,
    Workbook,
    Other,
}
