namespace Accession.Storage.Tables;

/// <summary>What a quotation mark means in a text file.</summary>
internal enum Quoting
{
    /// <summary>It encloses a cell, which may run over several lines.</summary>
    Enclosing,

    /// <summary>It encloses a cell within one line: too many are left open to believe in longer ones.</summary>
    EachLine,

    /// <summary>It is a letter like any other, as tab-separated exports have it.</summary>
    Ordinary,
}
