using Accession.Core.Specimens;
using Accession.Server.Shared;

namespace Accession.Server.Mounting;

/// <summary>What is done with the sheets that are scanned: a step, a place, or a freezer's load.</summary>
public sealed record BenchDoing(Step? Step, string Place, string Freezer)
{
    public static BenchDoing Of(Step step) => new(step, "", "");

    /// <summary>What the page says is being done; null when that is nothing at this bench.</summary>
    public static BenchDoing? Read(string? word) => BenchCommand.Read(word) switch
    {
        { Kind: CommandKind.Step, Step: { } step } => Of(step),
        { Kind: CommandKind.Place } place => new(null, place.Name, ""),
        { Kind: CommandKind.Freezer } freezer => new(null, "", freezer.Name),
        _ => null,
    };

    /// <summary>The word that asks for it.</summary>
    public string Word => Step is { } step ? BenchCommand.WordOf(step)
        : Place.Length > 0 ? BenchCommand.PlaceLead + Place
        : BenchCommand.FreezerLead + Freezer;

    /// <summary>What the page is called meanwhile.</summary>
    public string Title => Step is { } step ? TreatmentWords.Waits(step)
        : Place.Length > 0 ? $"Put sheets in {Place}"
        : $"Put sheets and parcels in freezer {Freezer}";

    /// <summary>What is scanned now.</summary>
    public string Asks => Step is { } step ? $"Scan the sheet that is {BenchCommand.WordOf(step)}"
        : Place.Length > 0 ? $"Scan the sheet that goes to {Place}"
        : $"Scan the sheet or parcel that goes in freezer {Freezer}";
}
