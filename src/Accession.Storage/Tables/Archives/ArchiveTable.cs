namespace Accession.Storage.Tables.Archives;

/// <summary>What an archive's descriptor says of one table: the core, or an extension.</summary>
/// <param name="RowType">The address of the class that a row is one of, such as that of Occurrence.</param>
/// <param name="Format">How its files are written.</param>
/// <param name="Encoding">How the descriptor says that its letters are written; null when it does not.</param>
/// <param name="DateFormat">How it says that dates are written; null when it does not.</param>
/// <param name="Locations">Its files, one behind the other.</param>
/// <param name="Key">
/// The column, from 0, by which rows of extensions belong to rows of the core; null when it has none.
/// </param>
/// <param name="Fields">What its columns mean.</param>
internal sealed record ArchiveTable(
    string RowType,
    DelimitedFormat Format,
    string? Encoding,
    string? DateFormat,
    IReadOnlyList<string> Locations,
    int? Key,
    IReadOnlyList<ArchiveField> Fields)
{
    /// <summary>The name of the class, such as Occurrence.</summary>
    public string TypeName => RowType.Length == 0 ? Locations[0] : ArchiveField.LastPart(RowType);

    /// <summary>Whether a row is something that was found or collected: a sheet, here.</summary>
    public bool IsOfOccurrences => TypeName.Equals("Occurrence", StringComparison.OrdinalIgnoreCase);

    /// <summary>Its files, for people.</summary>
    public string Names => string.Join(", ", Locations);

    /// <summary>How many cells a row must have for every term to have its own.</summary>
    public int CellsSpokenOf => Math.Max(
        (Key ?? -1) + 1, Fields.Select(one => one.Index ?? -1).DefaultIfEmpty(-1).Max() + 1);
}

/// <summary>What a column means.</summary>
/// <param name="Index">The column, from 0; null for a value that every row has.</param>
/// <param name="Term">The address of the term.</param>
/// <param name="Default">What stands in for an empty cell, or in every row; null when nothing does.</param>
internal sealed record ArchiveField(int? Index, string Term, string? Default)
{
    private const string DarwinCore = Core.Standards.DarwinCore.Term.DarwinCore;

    private static readonly string[] Known =
    [
        DarwinCore, Core.Standards.DarwinCore.Term.DublinCore, "http://purl.org/dc/elements/1.1/",
        "http://rs.tdwg.org/dwc/iri/",
    ];

    /// <summary>The name by which people know the term.</summary>
    public string Name => LastPart(Term);

    /// <summary>Whether it is a term of Darwin Core or one of those that it borrows.</summary>
    public bool IsStandard => Term == Name
        || Known.Any(known => Term.StartsWith(known, StringComparison.Ordinal) && Term.Length > known.Length);

    /// <summary>Darwin Core's terms begin with a small letter since 2009; only its classes have a capital.</summary>
    public bool IsOldSpelling =>
        Term.StartsWith(DarwinCore, StringComparison.Ordinal) && Name is [>= 'A' and <= 'Z', ..];

    /// <summary>What stands behind the last slash or hash of an address.</summary>
    public static string LastPart(string address)
    {
        var at = address.TrimEnd('/', '#').LastIndexOfAny(['/', '#']);
        return at < 0 ? address : address.TrimEnd('/', '#')[(at + 1)..];
    }
}
