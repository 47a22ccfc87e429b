using Accession.Core.Batches;
using Accession.Server.Shared;

namespace Accession.Server.Tracking;

/// <summary>
/// All sheets of one gathering as far as they ever came here: those of every record that was kept as a duplicate of it,
/// and those that were set aside.
/// </summary>
/// <param name="Numbered">Those with a number.</param>
/// <param name="Waiting">How many wait for their number, by gathering.</param>
/// <param name="SetAside">Those that took no number, with where they went and why.</param>
public sealed record DuplicateSheets(
    IReadOnlyList<DuplicateSheets.Sheet> Numbered,
    IReadOnlyList<DuplicateSheets.Unnumbered> Waiting,
    IReadOnlyList<DuplicateSheets.Away> SetAside)
{
    /// <summary>A numbered sheet, and the accession it came with.</summary>
    public sealed record Sheet(string CatalogNumber, int Repeat, bool IsRepeated, string Accession)
    {
        public string Address => SpecimenAddress.Of(CatalogNumber, Repeat, IsRepeated);
    }

    /// <summary>Sheets of a gathering that have no number yet.</summary>
    public sealed record Unnumbered(long GatheringId, string Accession, int Sheets);

    /// <summary>Sheets that do not stay.</summary>
    public sealed record Away(int Sheets, RowDecision Decision, string Accession, string? Why, string Who, DateTime At);
}
