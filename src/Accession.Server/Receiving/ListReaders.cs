using Accession.Core.Batches;
using Accession.Server.Hosting;
using Microsoft.Extensions.Options;

namespace Accession.Server.Receiving;

/// <summary>
/// Makes the reader of each list of a batch: by its own headings, what was settled for the batch, and the day it came.
/// The lists come with the acts that received them.
/// </summary>
public sealed class ListReaders(InstitutionClock clock, TimeProvider time, IOptions<InstitutionOptions> house)
{
    public ListReader Of(Batch batch, ReceivedList list) => new(
        ListColumns.Match(list.Headings, batch.Match, batch.CarriesNumbers),
        // What is typed here is in hand today, however long ago the pile was begun.
        new ListSettings(
            batch.DayMonthOrder, clock.Day(list.IsTyped ? time.GetUtcNow().UtcDateTime : list.Act.At))
        {
            CarriesNumbers = batch.CarriesNumbers,
            OwnAcronyms = [house.Value.InstitutionCode, house.Value.CollectionCode],
        });

    /// <summary>
    /// The readers of every list that could be opened, by its key: rows may stand under the headings of any of them.
    /// </summary>
    public IReadOnlyDictionary<long, ListReader> OfAll(Batch batch) => batch.Lists
        .Where(list => list.RefusedBecause is null && ListColumns.Headings(list.Headings).Count > 0)
        .ToDictionary(list => list.Id, list => Of(batch, list));
}
