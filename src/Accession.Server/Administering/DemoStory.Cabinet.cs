using Accession.Core.Determinations;
using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Determining;
using Accession.Server.Filing;
using Accession.Server.Mounting;
using Accession.Server.Receiving;
using Accession.Server.Tracking;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Administering;

/// <summary>
/// The cabinets of the demo: an old herbarium taken over with its numbers, laid in order of families, looked through by
/// a determiner; and the bench, where the sheets of the gift are mounted.
/// </summary>
public sealed partial class DemoStory
{
    private const int Cabinets = 8;

    private async Task TakeOverTheOldHerbariumAsync(CancellationToken cancellation)
    {
        var batch = await ReceiveAsync(
            DemoCabinet.Source, DemoCabinet.FileName, DemoCabinet.ToCsv(), null, true, cancellation);
        await DoAsync<TakeOver, TakeOver.Taken>(over => over.RunAsync(
            new(batch, null, "Sheets from before 1950 may carry mercury chloride: gloves."),
            Curator("demo: take over"), cancellation));
        await FillCabinetsAsync(cancellation);
        foreach (var collector in DemoCabinet.Collectors.Where(c => c.Numbering != DemoCabinet.Numbering.None))
        {
            await PutOnRecordAsync(collector.Name, cancellation);
        }
    }

    // Families in the order of the alphabet, about as many sheets in each cabinet.
    private async Task FillCabinetsAsync(CancellationToken cancellation)
    {
        // A number that is on two sheets says nothing about which of them goes where.
        var sheets = await LookAsync(db => db.Specimens
            .Where(s => db.Accessions.Any(lot => lot.Id == s.Gathering.AccessionId
                    && db.Batches.Any(b => b.Id == lot.BatchId && b.Source.Name == DemoCabinet.Source))
                && db.Specimens.Count(other => other.CatalogNumber == s.CatalogNumber) == 1)
            .OrderBy(s => s.Gathering.Notes.Family).ThenBy(s => s.CurrentName).ThenBy(s => s.Id)
            .Select(s => new { s.CatalogNumber, s.Gathering.Notes.Family }).ToListAsync(cancellation));
        var fill = (sheets.Count + Cabinets - 1) / Cabinets;
        for (var k = 0; k < Cabinets; k++)
        {
            var held = sheets.Skip(k * fill).Take(fill).ToList();
            var (first, last) = (held[0].Family, held[^1].Family);
            var name = $"Cabinet room, cabinet {k + 2}, {first}{(first == last ? "" : $" to {last}")}";
            await DoAsync<WritePlace, string>(write => write.RunAsync(
                new(name, Zone.CollectionRoom), Curator($"demo: {name}"), cancellation));
            var place = await LookAsync(db => db.Places.Where(p => p.Name == name).Select(p => p.Id)
                .SingleAsync(cancellation));
            await DoAsync<MoveParts, MoveParts.Moved>(move => move.RunAsync(
                new([.. held.Select(sheet => sheet.CatalogNumber)], place, "As found in the cases of the school."),
                Technician($"demo: fill {name}"), cancellation));
        }
    }

    private async Task<long> PutOnRecordAsync(string name, CancellationToken cancellation)
    {
        var family = name.Split(' ')[^1];
        var spellings = await LookAsync(db => db.Gatherings
            .Where(g => g.Notes.RecordedBy.Contains(family)).Select(g => g.Notes.RecordedBy).Distinct()
            .OrderBy(written => written).ToListAsync(cancellation));
        var person = await DoAsync<RecordPerson, long>(
            record => record.RunAsync(name, Curator($"demo: person {name}"), cancellation));
        await DoAsync<RecordPerson, string>(record => record.KnowAsync(
            person, spellings, Curator($"demo: spellings of {name}"), cancellation));
        return person;
    }

    // Old names in the cabinet, today's on the slip. Half of what the determiner said is decided, half waits.
    private async Task LookThroughTheGrassesAsync(CancellationToken cancellation)
    {
        var today = DemoCabinet.OldNames.ToDictionary(pair => pair.Value, pair => pair.Key);
        var old = today.Keys.ToList();
        var sheets = await LookAsync(db => db.Specimens
            .Where(s => old.Contains(s.CurrentName)).OrderBy(s => s.Id).Take(14)
            .Select(s => new { s.Id, s.CurrentName }).ToListAsync(cancellation));
        for (var k = 0; k < sheets.Count; k++)
        {
            var sheet = sheets[k];
            await DoAsync<FileUnder, string>(file => file.RunAsync(
                new(sheet.Id, sheet.CurrentName), Technician($"demo: filed as, {k}"), cancellation));
            await DoAsync<RecordOpinion, RecordOpinion.Recorded>(record => record.RunAsync(
                new(sheet.Id, SlipOfToday(today[sheet.CurrentName]), Counts: k % 2 == 0),
                k % 2 == 0 ? Curator($"demo: slip {k}") : Determiner($"demo: slip {k}"), cancellation));
        }
    }

    private static Opinion.Typed SlipOfToday(string name) => new(
        name, null, null, Demo.DisplayName(Role.Determiner), $"{DemoList.Season}", DeterminationKind.NewerName,
        SeenOn.Sheet, "The plant is what the label says; the genus is another one today.");

    // Mounted, labelled and photographed as far as the bench has come.
    private async Task MountSomeOfTheGiftAsync(CancellationToken cancellation)
    {
        foreach (var (step, sheets) in new[] { (Step.Mounted, 16), (Step.Labelled, 10), (Step.Imaged, 6) })
        {
            for (var sheet = 0; sheet < sheets; sheet++)
            {
                await DoAsync<FinishStep, BenchDone>(finish => finish.RunAsync(
                    new(step, Code(FirstOfRoll + sheet)), Technician($"demo: {step} {sheet}"), cancellation));
            }
        }
    }
}
