using Accession.Core.Outcomes;
using Accession.Core.Standards.Eml;
using Accession.Server.Hosting;
using Accession.Storage.Databases.Archives;
using Microsoft.Extensions.Options;

namespace Accession.Server.Publishing;

/// <summary>What the settings of the institution say about the data set it publishes.</summary>
public sealed class DatasetTexts(IOptions<InstitutionOptions> options, InstitutionClock calendar, TimeProvider clock)
{
    private InstitutionOptions House => options.Value;

    private Licence Licence => House.Licence switch
    {
        "CC0" => Licence.Cc0,
        "CC-BY-NC" => Licence.CcByNc,
        _ => Licence.CcBy,
    };

    /// <summary>The cells that are the same in every line.</summary>
    public DatasetCells Cells => new(Licence.Address(), House.InstitutionCode, House.CollectionCode);

    /// <summary>What keeps the data set from being described; empty when nothing does.</summary>
    public IReadOnlyList<Refusal> Refusals() =>
        Description(new(Guid.Empty, 1, clock.GetUtcNow().UtcDateTime)).Refusals();

    /// <summary>A name for the file of a version, without an ending, such as <c>herb-2026-11-25-v3</c>.</summary>
    public string FileName(DatasetVersions.DatasetVersion version) =>
        $"{House.CollectionCode.ToLowerInvariant()}-{calendar.Day(version.At):yyyy-MM-dd}-v{version.Number}";

    /// <summary>The description that goes into the archive.</summary>
    public DatasetDescription Description(DatasetVersions.DatasetVersion version)
    {
        var house = new DatasetParty(House.Name, House.Email);
        return new()
        {
            Identifier = version.Identifier,
            Version = version.Number,
            Title = $"Specimens of {House.Name}",
            Abstract = House.Abstract,
            Licence = Licence,
            Creator = house,
            Contact = house,
            Publisher = house,
            PublishedOn = calendar.Day(version.At),
            WrittenAt = clock.GetUtcNow().UtcDateTime,
            CollectionName = House.Name,
        };
    }
}
