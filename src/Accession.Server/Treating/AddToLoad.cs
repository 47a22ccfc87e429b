using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Storage;
using Accession.Storage.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Server.Treating;

/// <summary>
/// Puts something on the list of a load: a parcel by its tag, a sheet by its code, or a bundle by words.
/// </summary>
public sealed class AddToLoad(AccessionDb db, PartsOfLoads parts, TimeProvider clock)
{
    /// <param name="Code">A parcel's tag or a sheet's code, as scanned; empty for a bundle.</param>
    /// <param name="WithSheets">
    /// Whether the sheets that were numbered out of the parcel lie in it again, so that they share what becomes of it.
    /// </param>
    /// <param name="Bundle">What a bundle is called.</param>
    /// <param name="BatchId">The batch a bundle is of.</param>
    /// <param name="BeginAgain">Whether the clock of a running load may begin again.</param>
    public sealed record Request(
        int Number, string? Code, bool WithSheets = false, string? Bundle = null, long? BatchId = null,
        bool BeginAgain = false);

    public Task<Outcome<string>> RunAsync(Request request, Door door, CancellationToken cancellation)
    {
        var act = Act.Of(door, "put something on the list of a load", clock.GetUtcNow().UtcDateTime);
        return db.CarryOutAsync(door, act, () => AddAsync(request, act, cancellation), cancellation);
    }

    private async Task<Outcome<string>> AddAsync(Request request, Act act, CancellationToken cancellation)
    {
        var load = await HeldLoad.OfAsync(db, request.Number, cancellation);
        if (load is null)
        {
            return new Refusal(RefusalKind.NotFound, $"There is no load {request.Number}.");
        }

        var code = Parcel.TagIn(request.Code);
        if (code.Length == 0)
        {
            return await AddBundleAsync(load, request, act, cancellation);
        }

        return await db.Parcels.SingleOrDefaultAsync(p => p.Tag == code, cancellation) is { } parcel
            ? await AddParcelAsync(load, parcel, request, act, cancellation)
            : await AddPartAsync(load, request, act, cancellation);
    }

    private async Task<Outcome<string>> AddParcelAsync(
        FreezerLoad load, Parcel parcel, Request request, Act act, CancellationToken cancellation)
    {
        var item = load.Add(parcel, request.BeginAgain, act);
        if (item.IsRefused)
        {
            return item.Refusals.ToList();
        }

        db.Add(item.Value);
        var sheets = request.WithSheets ? await parts.PutInsideAsync(load, parcel, act, cancellation) : 0;
        return sheets == 0 ? $"parcel {parcel.Tag}" : $"parcel {parcel.Tag} with {sheets:N0} sheets in it";
    }

    private async Task<Outcome<string>> AddPartAsync(
        FreezerLoad load, Request request, Act act, CancellationToken cancellation)
    {
        var code = request.Code!.Trim();
        var found = await db.Parts.Where(p => p.Code == code).OrderBy(p => p.Id).Take(2).ToListAsync(cancellation);
        if (found is not [var part])
        {
            return new Refusal(RefusalKind.NotFound, found.Count == 0
                ? $"\"{(code.Length <= 60 ? code : code[..60] + "…")}\" is no parcel's tag and no sheet's number. "
                    + "Nothing was put on the list."
                : $"{code} is on more than one sheet. Put the sheet in a bundle, and name it there.");
        }

        var item = load.Add(part, null, request.BeginAgain, act);
        if (item.IsRefused)
        {
            return item.Refusals.ToList();
        }

        db.Add(item.Value);
        return part.Code;
    }

    private async Task<Outcome<string>> AddBundleAsync(
        FreezerLoad load, Request request, Act act, CancellationToken cancellation)
    {
        if (request.BatchId is { } batch && !await db.Batches.AnyAsync(b => b.Id == batch, cancellation))
        {
            return new Refusal(RefusalKind.NotFound, $"There is no batch {batch}.");
        }

        var item = load.Add(request.Bundle ?? "", request.BatchId, request.BeginAgain, act);
        if (item.IsRefused)
        {
            return item.Refusals.ToList();
        }

        db.Add(item.Value);
        return $"bundle {item.Value.Bundle}";
    }
}
