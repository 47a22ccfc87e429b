namespace Accession.Server.Mounting;

/// <summary>What is printed for one part, in the order of the label.</summary>
/// <param name="Code">What is scanned from it.</param>
/// <param name="Region">County, state and country.</param>
/// <param name="Lines">Place, point, elevation, habitat, company and remarks; a line each.</param>
/// <param name="Determined">Who named it, and when; of a slip, with what was done.</param>
/// <param name="Accession">The number of the accession.</param>
public sealed record PrintedLabel(
    string Code, string Region, string Family, string Name, string Qualifier, IReadOnlyList<string> Lines,
    string Collector, string Number, string Date, string Determined, string Accession)
{
    private const int MuchToSay = 420;

    /// <summary>A barcode alone.</summary>
    public static PrintedLabel Bare(string code) => new(code, "", "", "", "", [], "", "", "", "", "");

    /// <summary>Whether it has so much to say that it is set smaller.</summary>
    public bool IsLong => Lines.Sum(line => line.Length) + Name.Length > MuchToSay;
}
