using Accession.Core.Outcomes;
using Accession.Core.Specimens;
using Accession.Server.Shared;
using Accession.Storage;

namespace Accession.Server.Mounting;

/// <summary>What a scan at the step bench asks for: the operation behind it, or why it is none.</summary>
public sealed class StepBenchScan(
    AccessionDb db, FinishStep finish, TakeStepBack takeStepBack, PutInPlace putInPlace, TakePlaceBack takePlaceBack,
    PutOnLoad putOnLoad, TakeLineBack takeLineBack)
{
    /// <summary>Does with a sheet or parcel what is being done, or takes the last one back.</summary>
    /// <param name="doing">What is being done.</param>
    /// <param name="code">What was scanned.</param>
    /// <param name="door">Who scanned it, and under which key.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<Outcome<BenchDone>> RunAsync(
        BenchDoing doing, string code, Door door, CancellationToken cancellation)
    {
        var isUndo = BenchCommand.Read(code)?.Kind == CommandKind.Undo;
        return doing switch
        {
            { Step: { } step } => isUndo
                ? takeStepBack.RunAsync(step, door, cancellation)
                : finish.RunAsync(new(step, code), door, cancellation),
            { Place.Length: > 0 } => isUndo
                ? takePlaceBack.RunAsync(door, cancellation)
                : putInPlace.RunAsync(new(doing.Place, code), door, cancellation),
            _ => isUndo
                ? takeLineBack.RunAsync(door, cancellation)
                : putOnLoad.RunAsync(new(doing.Freezer, code), door, cancellation),
        };
    }

    /// <summary>Whether it can be done: the place is there, and a list is being made for the freezer.</summary>
    public async Task<Refusal?> WhyNotAsync(BenchDoing doing, CancellationToken cancellation)
    {
        if (doing.Place.Length > 0)
        {
            return await PutInPlace.FindAsync(db, doing.Place, cancellation) is null
                ? PutInPlace.NoSuchPlace(doing.Place)
                : null;
        }

        if (doing.Freezer.Length == 0)
        {
            return null;
        }

        var list = await PutOnLoad.OpenListAsync(db, doing.Freezer, cancellation);
        return list.IsRefused ? list.Refusals[0] : null;
    }
}
